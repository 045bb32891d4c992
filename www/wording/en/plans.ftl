# What the plans say: the way of the cable, stretch by stretch, and the reach of the leads. Voice as in form.ftl.

## Stretches

stretch-n = Stretch { $n }
stretch-name = Stretch { $n }, { $along }, { $length }
stretch-along = Runs along
stretch-choose = Choose what it runs along
stretch-length = Length
stretch-high = Out of reach from the ground (over about 3 m)
stretch-add = Add after
stretch-earlier = Move earlier
stretch-later = Move later
stretch-split = Split
stretch-out = Take out
stretch-did-add = Stretch { $n } is new.
stretch-did-move = It is now stretch { $n } of { $all }.
stretch-did-split = Split in two: stretches { $n } and { $next }.
stretch-did-out = Taken out. Stretches left: { $all }.
stretch-total = { $metres } in all
stretch-total-in = { $metres } in all ({ $count } { $unit })
stretch-total-open = So far { $metres }; one stretch is still open
stretch-unit = Measured in

## What they take

laid-flat = { $metres } inside, in plain house cable
laid-armoured = needs armoured cable for { $metres }
laid-dug = { $metres } to dig
laid-dug-paved = { $metres } to dig, under paving
laid-dug-paving = { $metres } to dig, { $paving } of it under paving
laid-high = { $metres } out of reach: a ladder or a tower

## The drawing

way-board = fuse board
way-title = The way of the cable
way-text = From the fuse board to the charge point, laid out straight and to scale. { $stretches }.
way-point = charge point

## The reach of the leads

reach-heading = Which lead reaches?
reach-heading-own = How long must the lead be?
reach-title = The car and the leads, from above
reach-nose-label = nose
reach-footway-label = pavement
reach-shown-nose = Drawn nose in. Inlet: { $inlet }.
reach-shown-tail = Drawn backed in. Inlet: { $inlet }.
reach-turn = Turn the car round
reach-move = Move the inlet
reach-take = My car has it there
reach-both = A { $lead } lead reaches whichever way the car stands.
reach-nose = A { $lead } lead reaches only nose in.
reach-tail = A { $lead } lead reaches only backed in.
reach-neither = A { $lead } lead does not reach.
reach-footway = A { $lead } lead would have to cross the pavement: not allowed.
reach-any = A { $lead } lead reaches any car, whichever way it stands.
reach-some = A { $lead } lead reaches some cars: it depends on the inlet.
reach-needed = The way to this inlet takes { $nose } nose in, { $tail } backed in, for a car of middling size.
reach-assumed = As if the car stood { $metres } from the charge point.
reach-telephone = By telephone
reach-message = By text message
reach-email = By e-mail
