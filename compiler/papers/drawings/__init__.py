"""What is drawn to scale: views, their dimension chains, and the letters on them."""
