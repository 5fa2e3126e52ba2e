"""What is only looked at: sheets to print."""
