"""List every string a user can see: ``make strings``."""

from tests.words.strings import seen_strings

for seen in seen_strings():
    print(f"{seen.path}:{seen.line}: {' '.join(seen.words.split())}")
