"""What is not right in a design, as coded findings with their place and what to do."""
