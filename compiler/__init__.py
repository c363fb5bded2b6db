"""The trade's geometry: from a resolved text to one immutable Job, and the papers made from it."""
