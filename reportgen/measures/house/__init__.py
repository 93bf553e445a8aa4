"""The house as a balance: every *what if* of one winter as logged air plus the house's response to other heat.

hours → balance → bed → response; from it without_heat, failure, loss, size and hold. Method page, *The house as a
balance*.
"""
