# What the engine says of a price, for the homeowner. Short words; it travels with the result.

## What makes a job dearer, or cheaper, than the simplest one
cause-days = More than one day, or parking to be paid
cause-charge-point = The charge point you have already, or a holder for its lead
cause-already = What is there already: an old charge point, a cable to test
cause-board = Work at the fuse board
cause-surge = Surge protection
cause-bonding = Safety wires to gas or water pipes (bonding)
cause-earthing = Earthing for a car that is charged outdoors
cause-digging = Digging
cause-route = The way from the fuse board to the car
cause-height = Working high up
cause-signal = A data cable, for want of a signal
cause-load-sensing = A sensor that holds the charge point back
cause-post = A post, for want of a wall

## Choices made the other way
choice-socket = With a socket in place of a lead that stays on
choice-fixed-lead = With a lead that stays on, in place of a socket
choice-buried = With the cable under the ground
choice-along-the-wall = With the cable along the wall
choice-hold-back = Holding back while the home is busy
choice-bigger-supply = At full speed always, with a bigger supply if need be

future-as-dear = About as dear.
future-dearer = About { $amount } more.
future-cheaper = About { $amount } less.
future-not-counted = What the network operator may charge is not in it.
future-waits = Then { $who } must answer first.
future-may-wait = Then { $who } may have to answer first.
future-waits-not = Then { $who } would usually not have to answer first.

who-network-operator = the network operator
who-supplier = the electricity supplier
who-landlord = the landlord
who-neighbour = a neighbour
who-planner = the planners
who-highway-authority = the council
who-other-trade = another trade

## What was wished for, and whether it is so
wish-socket-met = You asked for a socket: this price is for a charge point with one.
wish-socket-not = You asked for a socket: no charge point offered here has one, so this price is for a charge point with a lead.
wish-lead-met = You asked for a lead that stays on: this price is for a charge point with one.
wish-lead-not = You asked for a lead that stays on: no charge point offered here has one, so this price is for a charge point with a socket.
wish-follow-solar-met = You asked to charge from your own solar panels first: this charge point can.
wish-follow-solar-not = You asked to charge from your own solar panels first: this charge point cannot.
wish-hold-back-met = You asked for the charge point to slow down while the home uses a lot of power: this one does.
wish-hold-back-not = You asked for the charge point to slow down while the home uses a lot of power: this one cannot.
wish-steered-met = Your supplier has to start the charge point: as far as is known, this one can work with such rates. Your supplier decides.
wish-steered-not = Your supplier has to start the charge point: this one is not known to work with such rates.

## How long others usually take. Common practice, no source
wait-network-operator = a form, commonly answered in one to ten working days
wait-network-operator-application = commonly some weeks for panels or a battery of that size
wait-network-operator-emergency = commonly the same day if you ring 105; after that as they say
wait-network-operator-visit = commonly two to six weeks until somebody comes to look
wait-network-operator-upgrade = commonly some weeks for a larger main fuse
wait-network-operator-works = commonly weeks to months for works on the cable
wait-supplier = commonly one to four weeks for a visit
wait-landlord = as long as they take to agree in writing
wait-neighbour = as long as they take to agree in writing
wait-planner = commonly eight weeks for a decision
wait-highway-authority = differs from council to council
wait-other-trade = as agreed with them

## Driving on it, by their own figures
driving-enough = { $miles ->
    [one] One mile a day takes
   *[other] { $miles } miles a day take
} about { $energy } kWh, or { $hours ->
    [one] one hour
   *[other] { $hours } hours
} of a night at the charge point.
driving-short = { $miles ->
    [one] One mile a day takes
   *[other] { $miles } miles a day take
} about { $energy } kWh, or { $hours ->
    [one] one hour
   *[other] { $hours } hours
} at the charge point: more than one cheap night.
driving-night = A year of it costs about { $amount } at your night price.
driving-day = A year of it costs about { $amount } at your day price.
driving-public = The same at public points costs about { $amount }.
