"""Finding an item by the code on its label."""
