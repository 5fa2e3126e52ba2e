"""A small invented house for tests of planning: a set of single purchase with round figures, no lift-line weight."""

from counterpoise.documents import read_hang, read_house, read_show
from counterpoise.rigging import RiggedHouse, rig

# Pipe weight 6 balances the empty set exactly: arbor 62 lb + 6 x 25 lb = 212 lb; batten 42 ft x 2.72 lb/ft = 114.24 lb
# and 97.76 lb of hardware. Lift lines and plates weigh nothing here, as in the worked case.
HOUSE = """
counterpoise: house 1
name: Marrowby Centre
about: Invented.
units: us
stage:
  loft blocks: 62 ft
bricks:
  - brick: full
    weight: 25 lb
    thickness: 2 in
    stock: {bridge: 60}
bridges:
  - bridge: bridge
    floor: 49 ft
    reach from: 0 in
    reach to: 7 ft
    length: 30 ft
    width: 3 ft
    posting: POSTING
    people: 2
rules:
  adopted by: an invented rigger
  adopted on: 2026-02-01
  lock hold: 50 lb
  plate every: 24 in
  person: 200 lb
not checked here: [LISTED]
sets:
  - set: "14"
    distance: 12 ft
    purchase: single
    hand line: with the batten
    low trim: 4 ft
    high trim: 58 ft
    batten:
      length: 42 ft
      outside diameter: 1.900 in
      wall: 0.145 in
      weight: 2.72 lb/ft
      modulus: 29,000 ksi
      hardware: 97.76 lb
    lines:
      at: [20' SR, 10' SR, CL, 10' SL, 20' SL]
      weight: 0 lb/ft
      breaking strength: 7,000 lb
      termination: 80 %
      stiffness: 446,000 lb
      head block from end: 4 ft
    loft block: {rating: 500 lb, rating of: line pull}
    head block: {rating: 2000 lb, rating of: line pull}
    arbor:
      weight: 62 lb
      rating: 1,200 lb
      usable height: 66 in
      seat at low trim: 50 ft
      plate weight: 0 lb
      plate thickness: 3/8 in
    brick: full
    pipe weight: 6
    stops: STOPS
    tension block: 200 lb
SERVICE"""

PIECES = {"header": "140 lb", "leg SR": "45 lb", "leg SL": "45 lb", "speaker": "60 lb"}


def small_house(
    *,
    pieces: dict[str, str] | None = None,
    stops: str = "{top: 1500 lb, bottom: 1500 lb}",
    posting: str = "75 psf",
    listed: str = "",
    service: str = "",
    height: str = "3 ft",
    comes: str = "free",
) -> RiggedHouse:
    """Set 14 with the pieces of the worked case, or others."""
    text = HOUSE.replace("STOPS", stops).replace("POSTING", posting).replace("LISTED", listed)
    house = read_house(text.replace("SERVICE", f"    out of service: {service}\n" if service else ""))
    hung = PIECES if pieces is None else pieces
    show = read_show(
        "counterpoise: show 1\nname: Gala\npieces:\n"
        + "".join(
            f"  - {{piece: {name}, weight: {weight}, spread over: 30 ft, height: {height}, comes: {comes}}}\n"
            for name, weight in hung.items()
        )
    )
    hang = read_hang(
        "counterpoise: hang 1\nhouse: Marrowby Centre\nshow: Gala\nhung:\n"
        + "".join(f'  - {{piece: {name}, set: "14", centre: CL}}\n' for name in hung),
        house,
        show,
    )
    return rig(house, show, hang)
