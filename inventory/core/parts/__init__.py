"""What a part is: numbers, hands, standard hardware, measures."""
