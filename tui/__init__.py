"""Everything a person sees, laid out by what they see.

``shell`` the program · ``week`` the first screen · ``lists`` jobs, prices, stock · ``your_details``
· ``job`` one job and its pages · ``papers`` · ``roof`` its drawings · ``widgets`` what forms and
lists are made of · ``frame`` what every screen stands in. Each imports only those after it.
"""
