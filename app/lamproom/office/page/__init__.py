"""A permit as its page shows it: state and clock brought into the plain values that paper draws."""
