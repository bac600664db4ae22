"""The bikes room: all its addresses in one list, each with the function that answers it."""

from __future__ import annotations

from flask import Blueprint

from partsbin.bench.kept import Kept
from partsbin.bench.rooms import (
    bikes_acts,
    bikes_add,
    bikes_list,
    bikes_page,
    bikes_plan,
    bikes_presale,
    bikes_slot,
    bikes_slot_acts,
    bikes_strip,
)

room = Blueprint("bikes", __name__, url_prefix="/bikes")
room.record_once(lambda state: Kept.hold(state.app))

BIKE = "/<label:number>"
SLOT = f"{BIKE}/slots/<slot>"
GET = (
    ("/", "all_bikes", bikes_list.all_bikes),
    ("/add", "add", bikes_add.blank),
    (f"{BIKE}/", "bike", bikes_page.bike),
    (f"{BIKE}/edit", "edit", bikes_add.filled),
    (f"{BIKE}/history", "history", bikes_page.history),
    (f"{BIKE}/listing", "listing", bikes_presale.listing),
    (f"{BIKE}/photos", "photos", bikes_page.photos),
    (f"{BIKE}/plan", "plan", bikes_plan.plan),
    (f"{BIKE}/plan/picks.pdf", "pick_list", bikes_plan.pick_list),
    (f"{BIKE}/presale", "presale", bikes_presale.presale),
    (f"{BIKE}/strip", "strip", bikes_strip.asked),
    (f"{BIKE}/strip/<int:act>", "went", bikes_strip.went),
    (SLOT, "slot", bikes_slot.slot),
    (f"{SLOT}/add/<kind>", "found", bikes_slot.found),
)
POST = (
    ("/add", "added", bikes_add.added),
    (f"{BIKE}/edit", "edited", bikes_add.edited),
    (f"{BIKE}/work", "work", bikes_acts.work),
    (f"{BIKE}/pay", "pay", bikes_acts.pay),
    (f"{BIKE}/expect", "expect", bikes_acts.expect),
    (f"{BIKE}/sell", "sell", bikes_acts.sell),
    (f"{BIKE}/keep", "keep", bikes_acts.keep),
    (f"{BIKE}/return", "take_back", bikes_acts.take_back),
    (f"{BIKE}/plan", "apply", bikes_plan.apply),
    (f"{BIKE}/presale", "check", bikes_presale.check),
    (f"{BIKE}/ready", "ready", bikes_presale.ready),
    (f"{BIKE}/strip", "stripped", bikes_strip.stripped),
    (f"{SLOT}/mount", "mount", bikes_slot_acts.mount),
    (f"{SLOT}/unmount", "unmount", bikes_slot_acts.unmount),
    (f"{SLOT}/scrap", "scrap", bikes_slot_acts.scrap),
    (f"{SLOT}/part", "correct", bikes_slot_acts.correct),
    (f"{SLOT}/add/<kind>", "take_in", bikes_slot_acts.take_in),
)
for rule, endpoint, view in GET:
    room.add_url_rule(rule, endpoint, view, methods=["GET"])
for rule, endpoint, view in POST:
    room.add_url_rule(rule, endpoint, view, methods=["POST"])
