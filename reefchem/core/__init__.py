"""What every relation stands on: kinds of number, units, records, roots, atoms, sources, errors."""
