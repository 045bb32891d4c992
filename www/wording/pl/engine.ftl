# What the engine says of a price, for the homeowner, in Polish. Short words; it travels with the result.

## What makes a job dearer, or cheaper, than the simplest one
cause-days = Więcej niż jeden dzień albo płatny postój
cause-charge-point = Punkt ładowania, który już Państwo mają, albo uchwyt na kabel
cause-already = To, co już jest: stary punkt ładowania, kabel do sprawdzenia
cause-board = Praca przy tablicy bezpiecznikowej
cause-surge = Ochrona przed przepięciami
cause-bonding = Połączenie rur gazu lub wody z uziemieniem
cause-earthing = Uziemienie dla auta ładowanego na zewnątrz
cause-digging = Kopanie
cause-route = Trasa od tablicy bezpiecznikowej do auta
cause-height = Praca na wysokości
cause-signal = Kabel sieciowy, bo brakuje zasięgu
cause-load-sensing = Czujnik, który przyhamowuje punkt ładowania
cause-post = Słupek, bo brakuje ściany

## Choices made the other way
choice-socket = Z gniazdem zamiast kabla na stałe
choice-fixed-lead = Z kablem na stałe zamiast gniazda
choice-buried = Z kablem pod ziemią
choice-along-the-wall = Z kablem po ścianie
choice-hold-back = Ze zwalnianiem, gdy dom zużywa dużo prądu
choice-bigger-supply = Zawsze z pełną mocą, w razie potrzeby z większym przyłączem

future-as-dear = Kosztuje mniej więcej tyle samo.
future-dearer = Około { $amount } więcej.
future-cheaper = Około { $amount } mniej.
future-not-counted = Nie wliczono tego, co może doliczyć operator sieci.
future-waits = Wtedy najpierw musi odpowiedzieć { $who }.
future-may-wait = Wtedy może się okazać, że najpierw musi odpowiedzieć { $who }.
future-waits-not = Wtedy jedna odpowiedź zwykle nie jest potrzebna ({ $who }).

who-network-operator = operator sieci
who-supplier = sprzedawca prądu
who-landlord = właściciel lub właścicielka budynku
who-neighbour = sąsiad lub sąsiadka
who-planner = dział planowania władz lokalnych
who-highway-authority = urząd lokalny (council)
who-other-trade = inny fachowiec

## What was wished for, and whether it is so
wish-socket-met = Chcieli Państwo gniazdo: ta cena jest za punkt ładowania z gniazdem.
wish-socket-not = Chcieli Państwo gniazdo: żaden z dostępnych go nie ma, więc cena jest za punkt z kablem.
wish-lead-met = Chcieli Państwo kabel na stałe: ta cena jest za punkt ładowania z kablem.
wish-lead-not = Chcieli Państwo kabel na stałe: żaden z dostępnych go nie ma, więc cena jest za punkt z gniazdem.
wish-follow-solar-met = Chcieli Państwo ładować najpierw z własnych paneli słonecznych: ten punkt to potrafi.
wish-follow-solar-not = Chcieli Państwo ładować najpierw z własnych paneli słonecznych: ten punkt tego nie potrafi.
wish-hold-back-met = Chcieli Państwo, żeby punkt ładowania zwalniał, gdy dom zużywa dużo prądu: ten to robi.
wish-hold-back-not = Chcieli Państwo, żeby punkt ładowania zwalniał, gdy dom zużywa dużo prądu: ten tego nie potrafi.
wish-steered-met = Punkt ładowania musi włączać sprzedawca prądu: o ile wiadomo, ten może działać z takimi taryfami. Decyduje sprzedawca.
wish-steered-not = Punkt ładowania musi włączać sprzedawca prądu: nie wiadomo, czy ten działa z takimi taryfami.

## How long others usually take
wait-network-operator = formularz, odpowiedź zwykle w ciągu jednego do dziesięciu dni roboczych
wait-network-operator-application = zwykle kilka tygodni przy panelach lub magazynie energii tej wielkości
wait-network-operator-emergency = zwykle tego samego dnia po telefonie pod 105; potem według ich ustaleń
wait-network-operator-visit = zwykle od dwóch do sześciu tygodni, zanim ktoś przyjedzie to obejrzeć
wait-network-operator-upgrade = zwykle kilka tygodni na większy bezpiecznik główny
wait-network-operator-works = zwykle od kilku tygodni do kilku miesięcy na prace przy kablu
wait-supplier = zwykle od jednego do czterech tygodni na wizytę
wait-landlord = tyle, ile trwa uzyskanie pisemnej zgody
wait-neighbour = tyle, ile trwa uzyskanie pisemnej zgody
wait-planner = zwykle osiem tygodni na decyzję
wait-highway-authority = różnie w różnych miejscach
wait-other-trade = według ustaleń

## Driving on it, by their own figures
driving-enough = { $miles ->
    [one] Jedna mila dziennie wymaga
    [few] { $miles } mile dziennie wymagają
    [many] { $miles } mil dziennie wymaga
   *[other] { $miles } mili dziennie wymaga
} około { $energy } kWh, czyli nocą { $hours ->
    [one] jednej godziny
    [few] { $hours } godzin
    [many] { $hours } godzin
   *[other] { $hours } godziny
} przy punkcie ładowania.
driving-short = { $miles ->
    [one] Jedna mila dziennie wymaga
    [few] { $miles } mile dziennie wymagają
    [many] { $miles } mil dziennie wymaga
   *[other] { $miles } mili dziennie wymaga
} około { $energy } kWh, czyli { $hours ->
    [one] jednej godziny
    [few] { $hours } godzin
    [many] { $hours } godzin
   *[other] { $hours } godziny
} przy punkcie ładowania: więcej niż jedna tania noc.
driving-night = Rok takiej jazdy kosztuje około { $amount } po Państwa cenie nocnej.
driving-day = Rok takiej jazdy kosztuje około { $amount } po Państwa cenie dziennej.
driving-public = To samo na publicznych punktach kosztuje około { $amount }.
