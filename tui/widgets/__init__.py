"""Parts that screens are made of. They draw and report; they neither ask the book nor save."""
