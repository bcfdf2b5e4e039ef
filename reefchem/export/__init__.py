"""What other programs can use: a JavaScript module, test vectors, a check of their own results."""
