"""The desk: what people see and touch. It shows plain values and calls one door; it holds no rule."""
