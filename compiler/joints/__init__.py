"""Where parts meet: joints, grooves and fasteners, found in exact space."""
