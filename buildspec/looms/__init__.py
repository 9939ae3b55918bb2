"""What lies in each run and passes each hole: diameters, sleeves, supports, bends, room for more."""
