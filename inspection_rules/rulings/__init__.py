"""What each form of rule says about one case: a module a form, and what no rule says.

`judge.py` asks them in turn and puts their rulings together.
"""
