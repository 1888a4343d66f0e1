"""A fourth covering, registered before anything else is loaded, and what it is to reach."""
