"""What a shop is told of each part, in plain numbers: `told` has the values, the other files fill them."""
