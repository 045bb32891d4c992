# The enquiry in plain text: what stands in a mail or a message where no service takes it.

summary-title = Enquiry about a charge point at home
summary-hazard = SOMETHING UNSAFE WAS NOTICED: it comes first.
summary-name = Name
summary-reach = Best reached
summary-when = Good time
summary-note = Note
summary-language = Filled in in
summary-offers = May be sent offers
summary-look-again = (Please look again: the digits of the supply number do not fit together.)
summary-photos = Photos
summary-class = How involved the job looks
summary-price = Price shown to the homeowner
summary-price-none = none
summary-not-worked-out = (Nothing was worked out on the homeowner’s device: only the answers are here.)
