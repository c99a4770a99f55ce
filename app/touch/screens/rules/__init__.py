"""The rules: every regime with its rules, each with its source, and the published criteria beside them."""
