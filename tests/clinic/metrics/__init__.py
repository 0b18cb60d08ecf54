"""What is counted for those who run the server."""
