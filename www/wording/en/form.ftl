# The homeowner's form, in English.
app-title = Home charge point: what would it take?
