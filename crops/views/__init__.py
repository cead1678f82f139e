"""Pages of the crops: members read, coordinators change a garden's own."""
