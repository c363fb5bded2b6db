"""From a placed unit to its parts in space: cells over the text of its construction."""
