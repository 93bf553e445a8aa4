"""The pen: pictures of plain numbers, dates and words, told as frozen views, given back as SVG text.

It knows no season, no unit and no sentence: `charts/*_view.py` say what is drawn, the pen says where. Each form has its
module: what it is told (a frozen view) and a function a size that draws it.

    season_types, season_wide, season_tall   the winter on one axis of time
    effects, doubt                           effects shaded by doubt
    pair                                     the nights without and with a change
    kilogram, weeks                          money
    frost, worst_night, dots, failure        nights and crops
    houses, crowd, together                  many houses on one axis, and what one thing did in them
    still                                    a drawing that needs no style sheet, for a picture file
    ribbon                                   at the head of each page
"""
