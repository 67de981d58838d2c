//! Formulas of the cut: chip, force, power, bending, breakage, runout, finish, tool life, time.
