"""What a change did once the weather is taken out."""
