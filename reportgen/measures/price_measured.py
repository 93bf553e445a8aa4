"""x"""
STUDY_DATE=""
HOUSES=0
NEAR: dict[str, tuple[float, float, int, int]] = {}
