"""How few sheets and boards, how to saw them, and the proof that fewer will not do."""
