# Flags, as the installer reads them: a short name, why it matters, what to do.

flag-board-full-name = Board is full
flag-board-full-why = The charge point wants an enclosure of its own, or a way must be freed.
flag-board-full-do = Plan an enclosure fed by splitting the tails; look at the photo for a way that can be freed.

flag-hazard-seen-name = Hazard noticed
flag-hazard-seen-why = It may be dangerous now. Nothing is planned before it is made safe.
flag-hazard-seen-do = Ring them. See that the network operator, the supplier or an electrician has been called, as the place requires.

flag-looped-supply-name = Supply probably looped
flag-looped-supply-why = Both homes hang on one service cable. The network operator decides first and may separate them.
flag-looped-supply-do = Ask the network operator before booking and send the photo of the service head.
