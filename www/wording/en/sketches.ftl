# What the drawings beside choices show: for each a title, and a description of its own or of its question. Voice as in form.ftl.

## Homes and parking

title-home-detached = A house that stands alone
title-home-semi-detached = Two houses under one roof, one of them tinted
title-home-terrace = A row of houses, the middle one tinted
title-home-flat = A block of flats, one of them tinted
text-home = The front, with the roof or the floors above.
title-parking-drive = A car on the ground beside a house
title-parking-attached-garage = A car in a garage that is joined to a house
title-parking-detached-garage = A car in a garage that stands apart from the house
title-parking-shared-car-park = A car in a bay between the pillars of a car park
title-parking-street = A car at the kerb of a street, with the pavement between it and the house
text-parking = Seen from the front.

## The car

title-inlet-front = A car from above with its socket at the nose
title-inlet-front-left = A car from above with its socket at the front, on the left
title-inlet-front-right = A car from above with its socket at the front, on the right
title-inlet-rear-left = A car from above with its socket at the back, on the left
title-inlet-rear-right = A car from above with its socket at the back, on the right
title-inlet-rear = A car from above with its socket at the tail
text-inlet = The nose is at the top. The socket is the tinted ring, and a lead goes to it.
title-outlet-socket = A box with a socket on its front
title-outlet-lead = A box with a lead that hangs from it and ends in a plug
text-outlet = The charge point from the front.

## Ways of a cable

title-route-mostly-inside = A cable round the walls of a room
title-route-mostly-loft-or-floor = A cable over the beams of a loft
title-route-mostly-outside-wall = A cable clipped to a brick wall
title-route-mostly-fence = A cable along the boards of a fence
title-route-mostly-soft-ground = A cable in the ground below grass
title-route-mostly-paving = A cable in the ground below slabs
text-route-mostly = The cable is the thick green line.

## Meter

title-meter-place-indoors = A meter on the wall of a room
title-meter-place-outside-box = A shut box on a brick wall
title-meter-place-cupboard = A meter behind the open door of a cupboard
title-meter-place-communal = Many meters on one wall, one of them tinted
text-meter-place = The place is seen from a step back.
title-meter-kind-one-rate = A meter with one row of figures
title-meter-kind-two-rate = A meter with two rows of figures, one for the day and one for the night
title-meter-kind-smart = A meter with a screen, two buttons and waves beside it
title-meter-kind-prepayment = A meter with a slot for a key
text-meter-kind = The meter from the front, with four wires below it.
title-backing-wood = A meter on a plain wooden board
title-backing-dark-or-fibrous = A meter on a dark board of pressed fibres
title-backing-other = A meter on the bare wall
text-backing = The meter is the pale box; what is behind it is what counts here.
title-switch-after = A meter, then a small box with a switch, then the fuse board
text-switch-after = Two wires go from the meter on the left through the tinted box to the board on the right.

## Service head

title-fuse-carriers-1 = A sealed fuse box with one fuse holder
title-fuse-carriers-2 = A sealed fuse box with two fuse holders
title-fuse-carriers-3 = A sealed fuse box with three fuse holders
text-fuse-carriers = A box at the end of the thick street cable. Its fuse holders stand side by side on its front; the seals do not count.
title-street-cables-1 = One thick cable from the street
title-street-cables-2 = Two thick cables from the street
title-street-cables-3 = Three thick cables from the street
text-street-cables = A sealed fuse box. The thick green cables come up out of the ground into its bottom.
title-head-conductors-2 = Sealed fuse box with two wires leaving it, brown and blue
title-head-conductors-3 = Sealed fuse box with three wires leaving it, brown, black and blue
title-head-conductors-4 = Sealed fuse box with four wires leaving it; two go on elsewhere
title-head-conductors-5 = Sealed fuse box with five wires leaving it
title-head-conductors-6 = Sealed fuse box with six wires leaving it
title-head-conductors-4-three-phase = Sealed fuse box with four wires leaving it: brown, black, grey and blue
title-head-conductors-5-three-phase = Sealed fuse box with five wires leaving it: brown, black, grey and two blue
title-head-conductors-6-three-phase = Sealed fuse box with six wires leaving it
text-head-conductors = The box at the bottom is the sealed fuse box; count the wires that leave its top. The box above is the meter; its own wires don’t count. Green-and-yellow doesn’t count.
title-carrier-rating = A fuse holder with a tinted place where a number may stand
text-carrier-rating = The fuse holder from the front. A seal hangs from it.
title-earth-goes-service-head = The green-and-yellow wire ends at the sealed fuse box
title-earth-goes-cable-sheath = The green-and-yellow wire ends at a band around the street cable, below the sealed fuse box
title-earth-goes-rod = The green-and-yellow wire ends at a rod in the ground
text-earth-goes = The green-and-yellow wire comes down from above. Where it ends is tinted or joined.

## Board

title-protection-fuse-wire = A board with pull-out fuse holders
title-protection-breakers = A board with a row of small switches
text-protection = The front of a fuse board with its lid open.
title-test-buttons-none = A row of switches without a test button
title-test-buttons-one = A row of switches with one wide switch that has a test button
title-test-buttons-two = A row of switches with two wide switches that have test buttons
title-test-buttons-each-way = A row of switches, each with its own test button
text-test-buttons = The front of a fuse board. Test buttons are the small tinted squares.
title-spare-ways-none = A row of switches without a gap
title-spare-ways-one = A row of switches with one gap
title-spare-ways-several = A row of switches with several gaps
text-spare-ways = The front of a fuse board. Gaps are the tinted plain covers.
title-board-case-metal = A case of folded metal, with screws at its corners
title-board-case-plastic = A case of plastic, with round corners and a lid on a hinge
title-board-case-wood = A frame of wood around the fuses
text-board-case = The fuse board from the front with its lid shut.
title-rcd-type-ac = A wave in a frame
title-rcd-type-a = A wave, and under it two humps on a line, in a frame
title-rcd-type-f = A wave and two humps in one frame, and quick small waves in a second
title-rcd-type-b = A wave and two humps in one frame, and a line over dashes in a second
text-rcd-type = The small sign printed on the front of the device with the test button.
title-surge-device = A row of switches with a wide device among them that has two small windows
text-surge-device = The front of a fuse board with its lid open. The windows are tinted; they are often green or red.
title-wall-space = A fuse board with free wall beside it
text-wall-space = The free place is marked by a dotted line.

## Pipes

title-gas-pipe-metal = A metal pipe with joints
title-gas-pipe-plastic = A plastic pipe with a sleeve pushed over it
title-water-pipe-metal = A metal pipe with joints
title-water-pipe-plastic = A plastic pipe with a sleeve pushed over it
text-gas-pipe = The pipe comes up out of the floor.
text-water-pipe = The pipe comes up out of the floor.
title-gas-clamp = A band around a pipe, with a label and a green-and-yellow wire
text-gas-clamp = The band is tinted. The wire goes off to the right and down.
title-water-clamp = A band around a pipe, with a label and a green-and-yellow wire
text-water-clamp = The band is tinted. The wire goes off to the right and down. Below the band is a tap.

## The bill

title-supply-number = An electricity bill with a box low on the sheet
text-supply-number = The box is tinted where the thirteen digits stand, in groups. Beside them is a large S.
