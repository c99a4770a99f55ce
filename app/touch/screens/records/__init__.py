"""What happens to an item between inspections."""
