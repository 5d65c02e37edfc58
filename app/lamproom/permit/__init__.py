"""The permit: its form, what happened, what state that leaves, and what stands between people and entry."""
