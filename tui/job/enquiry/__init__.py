"""The enquiry: who, where, what they say, the visit."""
