"""Parts that the screens share: plain values in, signals out, no rule inside."""
