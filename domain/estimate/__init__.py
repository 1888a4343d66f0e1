"""What a roof costs and what it took: stock, prices, the quote, hours, what was used."""
