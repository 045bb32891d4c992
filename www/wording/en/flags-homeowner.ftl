# Flags, as the homeowner is told.
