"""Pages: the permit, the posted page, signing them and verifying them. Values in, bytes out; no files, no clock."""
