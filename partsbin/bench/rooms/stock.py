"""The stock room: all its addresses in one list, each with the function that answers it."""

from __future__ import annotations

from flask import Blueprint

from partsbin.bench.kept import Kept
from partsbin.bench.rooms import (
    stock_acts,
    stock_add,
    stock_bins,
    stock_edit,
    stock_labels,
    stock_lots,
    stock_part,
    stock_search,
)
from partsbin.bench.telling import quantity_of
from partsbin.stock.quantity import show_quantity
from partsbin.workshop.labelling import first_lines
from partsbin.workshop.mounting import place_of

room = Blueprint("stock", __name__, url_prefix="/stock")
room.record_once(lambda state: Kept.hold(state.app))
room.add_app_template_filter(place_of, "place_words")
room.add_app_template_filter(quantity_of, "quantity")
room.add_app_template_filter(first_lines, "first_lines")
room.add_app_template_filter(show_quantity, "amount_of")

GET = (
    ("/", "search", stock_search.search),
    ("/add/", "add", stock_add.kinds),
    ("/add/<kind>", "add_kind", stock_add.blank),
    ("/add/<kind>/reading", "reading", stock_add.reading),
    ("/bins/", "all_bins", stock_bins.all_bins),
    ("/bins/due", "bins_due", stock_bins.due),
    ("/bins/<label:number>/", "bin_page", stock_bins.bin_page),
    ("/labels", "labels_page", stock_labels.page),
    ("/parts/<label:number>/", "part_page", stock_part.part_page),
    ("/parts/<label:number>/edit", "edit", stock_edit.filled),
)
POST = (
    ("/move", "move_marked", stock_search.move_marked),
    ("/add/<kind>", "take_in", stock_add.take_in),
    ("/bins/", "add_bin", stock_bins.add),
    ("/labels", "labels", stock_labels.labels),
    ("/parts/<label:number>/edit", "correct", stock_edit.correct),
    ("/parts/<label:number>/move", "move", stock_acts.move),
    ("/parts/<label:number>/mount", "mount", stock_acts.mount),
    ("/parts/<label:number>/scrap", "scrap", stock_acts.scrap),
    ("/parts/<label:number>/buy", "buy_more", stock_lots.buy_more),
    ("/parts/<label:number>/use", "use", stock_lots.use),
    ("/parts/<label:number>/formula", "formula", stock_lots.formula),
)
for rule, endpoint, view in GET:
    room.add_url_rule(rule, endpoint, view, methods=["GET"])
for rule, endpoint, view in POST:
    room.add_url_rule(rule, endpoint, view, methods=["POST"])
