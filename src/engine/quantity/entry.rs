//! Reading a number as a shop writes it.
