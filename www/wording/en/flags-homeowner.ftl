# Flags, as the homeowner is told: plain words, no blame, nothing to do at the equipment.

flag-board-full = Your fuse board has no room left. A small box of its own beside it is the usual answer.
flag-hazard-seen = You noticed something that may be dangerous. That comes before anything else.
flag-looped-supply = The cable from the street may be shared with a neighbour. The network company has to be asked first.
