"""One photograph: seen, measured in, marked up, held against an earlier one."""
