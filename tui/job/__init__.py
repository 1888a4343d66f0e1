"""One job: its screen, and a folder for each page with its form, its dialogs and its reading."""
