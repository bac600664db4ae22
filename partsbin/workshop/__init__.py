"""The acts of the trade: judge, strip, mount, label, scan, sell, books."""
