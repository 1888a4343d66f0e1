"""Backups: copies of the book that were checked when they were made, and the way back from one.

``names`` which file is a backup of which book · ``copying`` one checked copy · ``daily`` what is
made and thinned out by itself · ``second`` the folder elsewhere ·
``holding`` what one holds · ``everywhere`` all there are · ``lost`` what restoring one would lose ·
``restoring`` one put in the book's place. The standard library alone.
"""
