"""The command line: one module per noun or act, thin over the workshop."""
