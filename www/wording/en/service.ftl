# What the service itself says to a browser that sent a plain form, in English.

sent-title = It has arrived
sent-reference = Your reference: { $reference }
sent-text = { $installer } has your enquiry. If you ring { $telephone }, read out this reference.
refused-title = It was not taken
refused-back = Go back in your browser: what you filled in should still be there. You can also ring { $telephone }.
robot = Perhaps a robot’s: a field that people do not see was filled in.
others-title = Other fields of the form:
