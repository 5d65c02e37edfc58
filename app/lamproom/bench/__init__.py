"""Instruments: what happened to them, what state that leaves, and until when they are ready."""
