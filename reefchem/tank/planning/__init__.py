"""The parts of a plan, one module for each thing that it says."""
