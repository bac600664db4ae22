"""What wheels, tyres and brakes say of each other on one bike."""

from __future__ import annotations

from tests.kinds.donor_bikes import Inheritance, bike

CASES: dict[str, Inheritance] = {
    # sheldonbrown.com/frame-spacing.html; mountainbike-magazin.de Lexikon 412768
    "rear hub from frame": (
        bike(frame={"kind": "frame", "rear_spacing_mm": 130}),
        "wheel",
        "rear wheel",
        "spacing_mm",
        130,
    ),
    "front hub not from frame": (
        bike(frame={"kind": "frame", "rear_spacing_mm": 130}),
        "wheel",
        "front wheel",
        "spacing_mm",
        None,
    ),
    "front hub from fork": (
        bike(fork={"kind": "fork", "axle": "thru-15"}),
        "wheel",
        "front wheel",
        "axle",
        "thru-15",
    ),
    "no 15 mm axle in a frame": (
        bike(rear_wheel={"kind": "wheel", "axle": "thru-15"}),
        "frame",
        "frame",
        "rear_axle",
        None,
    ),
    # sheldonbrown.com/26.html; powermanmalaysia.com tube sizes
    "tyre from wheel": (
        bike(front_wheel={"kind": "wheel", "bsd_mm": 590}),
        "tyre",
        "front tyre",
        "bsd_mm",
        590,
    ),
    "tyre not from the other wheel": (
        bike(front_wheel={"kind": "wheel", "bsd_mm": 590}),
        "tyre",
        "rear tyre",
        "bsd_mm",
        None,
    ),
    "tube from tyre": (
        bike(rear_tyre={"kind": "tyre", "bsd_mm": 622}),
        "tube",
        "rear tube",
        "bsd_mm",
        622,
    ),
    "wheel not from tube": (
        bike(rear_tube={"kind": "tube", "bsd_mm": 622}),
        "wheel",
        "rear wheel",
        "bsd_mm",
        None,
    ),
    # bike.bikegremlin.com/1402
    "lever pull from brake type": (
        bike(rear_brake={"kind": "rim_brake", "type": "linear-pull"}),
        "brake_lever",
        "right brake lever",
        "brake_pull",
        "long",
    ),
    "combined lever pull from calliper": (
        bike(front_brake={"kind": "rim_brake", "type": "dual-pivot"}),
        "combined_lever",
        "front shifter",
        "brake_pull",
        "short",
    ),
    "lever pull from hydraulic disc": (
        bike(front_brake={"kind": "disc_calliper", "brake_pull": "hydraulic"}),
        "brake_lever",
        "left brake lever",
        "brake_pull",
        "hydraulic",
    ),
    "two unlike brakes say nothing": (
        bike(
            front_brake={"kind": "disc_calliper", "brake_pull": "hydraulic"},
            rear_brake={"kind": "rim_brake", "type": "linear-pull"},
        ),
        "brake_lever",
        "left brake lever",
        "brake_pull",
        None,
    ),
    # trustysources.com DOT/mineral
    "fluid from calliper": (
        bike(front_brake={"kind": "disc_calliper", "fluid": "mineral"}),
        "brake_lever",
        "left brake lever",
        "fluid",
        "mineral",
    ),
    # smontanaro.net/CR/2005/1/778
    "bolt from recessed frame": (
        bike(frame={"kind": "frame", "brake_mounts": ["calliper-recessed"]}),
        "rim_brake",
        "rear brake",
        "bolt",
        "recessed",
    ),
    "no bolt from bosses": (
        bike(frame={"kind": "frame", "brake_mounts": ["canti-boss"]}),
        "rim_brake",
        "rear brake",
        "bolt",
        None,
    ),
    # bike-advisor.com centerlock-or-six-bolts; noahsark.co.uk disc mounts
    "rotor mount from wheel": (
        bike(front_wheel={"kind": "wheel", "rotor_mount": "six-bolt-44"}),
        "rotor",
        "front rotor",
        "rotor_mount",
        "six-bolt-44",
    ),
    "rotor size from calliper": (
        bike(rear_brake={"kind": "disc_calliper", "rotor_mm": 160}),
        "rotor",
        "rear rotor",
        "diameter_mm",
        160,
    ),
}
