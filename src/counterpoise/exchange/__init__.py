"""What is read back: spreadsheets and open formats."""
