"""What a roof is covered with: a file a covering, all of them listed in registry.py."""
