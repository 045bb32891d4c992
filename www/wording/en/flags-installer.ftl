# Flags, as the installer reads them.
