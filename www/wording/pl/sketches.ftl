# What the drawings beside choices show, in Polish: for each a title, and a description of its own or of its question.

## Homes and parking

title-home-detached = Dom, który stoi osobno
title-home-semi-detached = Dwa domy pod jednym dachem, jeden z nich zabarwiony
title-home-terrace = Szereg domów, środkowy zabarwiony
title-home-flat = Blok mieszkalny, jedno mieszkanie zabarwione
text-home = Widok z przodu, z dachem albo piętrami.
title-parking-drive = Auto na podjeździe obok domu
title-parking-attached-garage = Auto w garażu połączonym z domem
title-parking-detached-garage = Auto w garażu stojącym osobno
title-parking-shared-car-park = Auto na miejscu między słupami wspólnego parkingu
title-parking-street = Auto przy krawężniku, między nim a domem chodnik
text-parking = Widok z przodu.

## The car

title-inlet-front = Auto z góry, gniazdo z przodu pośrodku
title-inlet-front-left = Auto z góry, gniazdo z przodu po lewej
title-inlet-front-right = Auto z góry, gniazdo z przodu po prawej
title-inlet-rear-left = Auto z góry, gniazdo z tyłu po lewej
title-inlet-rear-right = Auto z góry, gniazdo z tyłu po prawej
title-inlet-rear = Auto z góry, gniazdo z tyłu pośrodku
text-inlet = Przód auta jest u góry. Gniazdo to zabarwione kółko, do którego idzie przewód.
title-outlet-socket = Skrzynka z gniazdem z przodu
title-outlet-lead = Skrzynka z przewodem, który zwisa i kończy się wtyczką
text-outlet = Punkt ładowania z przodu.

## Ways of a cable

title-route-mostly-inside = Kabel po ścianach pokoju
title-route-mostly-loft-or-floor = Kabel po belkach strychu
title-route-mostly-outside-wall = Kabel przypięty do ceglanej ściany
title-route-mostly-fence = Kabel wzdłuż desek płotu
title-route-mostly-soft-ground = Kabel w ziemi pod trawą
title-route-mostly-paving = Kabel w ziemi pod płytami
text-route-mostly = Kabel to gruba zielona linia.

## Meter

title-meter-place-indoors = Licznik na ścianie pokoju
title-meter-place-outside-box = Zamknięta skrzynka na ceglanej ścianie
title-meter-place-cupboard = Licznik za otwartymi drzwiami szafki
title-meter-place-communal = Wiele liczników na jednej ścianie, jeden zabarwiony
text-meter-place = Miejsce widziane z odległości kroku.
title-meter-kind-one-rate = Licznik z jednym rzędem cyfr
title-meter-kind-two-rate = Licznik z dwoma rzędami cyfr, jednym na dzień i jednym na noc
title-meter-kind-smart = Licznik z ekranem, dwoma przyciskami i falami obok
title-meter-kind-prepayment = Licznik ze szczeliną na klucz
text-meter-kind = Licznik z przodu, pod nim cztery przewody.
title-backing-wood = Licznik na zwykłej drewnianej desce
title-backing-dark-or-fibrous = Licznik na ciemnej płycie z prasowanych włókien
title-backing-other = Licznik wprost na ścianie
text-backing = Licznik to jasna skrzynka; tutaj liczy się to, co jest za nim.
title-switch-after = Licznik, potem mała skrzynka z wyłącznikiem, potem tablica bezpiecznikowa
text-switch-after = Dwa przewody idą od licznika po lewej przez zabarwioną skrzynkę do tablicy po prawej.

## Service head

title-fuse-carriers-1 = Zaplombowana skrzynka z jedną oprawą bezpiecznika
title-fuse-carriers-2 = Zaplombowana skrzynka z dwiema oprawami bezpieczników
title-fuse-carriers-3 = Zaplombowana skrzynka z trzema oprawami bezpieczników
text-fuse-carriers = Skrzynka na końcu grubego kabla z ulicy. Oprawy bezpieczników stoją z przodu obok siebie; plomby się nie liczą.
title-street-cables-1 = Jeden gruby kabel z ulicy
title-street-cables-2 = Dwa grube kable z ulicy
title-street-cables-3 = Trzy grube kable z ulicy
text-street-cables = Zaplombowana skrzynka. Grube zielone kable wchodzą do niej z ziemi od dołu.
title-head-conductors-2 = Zaplombowana skrzynka, z której wychodzą dwa przewody, brązowy i niebieski
title-head-conductors-3 = Zaplombowana skrzynka, z której wychodzą trzy przewody, brązowy, czarny i niebieski
title-head-conductors-4 = Zaplombowana skrzynka, z której wychodzą cztery przewody; dwa idą gdzie indziej
title-head-conductors-5 = Zaplombowana skrzynka, z której wychodzi pięć przewodów
title-head-conductors-6 = Zaplombowana skrzynka, z której wychodzi sześć przewodów
title-head-conductors-4-three-phase = Zaplombowana skrzynka, z której wychodzą cztery przewody: brązowy, czarny, szary i niebieski
title-head-conductors-5-three-phase = Zaplombowana skrzynka, z której wychodzi pięć przewodów: brązowy, czarny, szary i dwa niebieskie
title-head-conductors-6-three-phase = Zaplombowana skrzynka, z której wychodzi sześć przewodów
text-head-conductors = Dolna skrzynka to zaplombowana skrzynka bezpiecznikowa; liczą się przewody, które wychodzą z niej do góry. Górna to licznik; jego własne przewody się nie liczą. Zielono-żółtego nie liczymy.
title-carrier-rating = Oprawa bezpiecznika z zabarwionym miejscem, gdzie może być liczba
text-carrier-rating = Oprawa bezpiecznika z przodu. Wisi na niej plomba.
title-earth-goes-service-head = Zielono-żółty przewód kończy się przy zaplombowanej skrzynce
title-earth-goes-cable-sheath = Zielono-żółty przewód kończy się przy opasce wokół kabla z ulicy, pod zaplombowaną skrzynką
title-earth-goes-rod = Zielono-żółty przewód kończy się przy pręcie w ziemi
text-earth-goes = Zielono-żółty przewód schodzi z góry. Miejsce, gdzie się kończy, jest zabarwione lub połączone.

## Board

title-protection-fuse-wire = Tablica z wyjmowanymi bezpiecznikami
title-protection-breakers = Tablica z rzędem małych przełączników
text-protection = Tablica bezpiecznikowa z przodu, z otwartą klapką.
title-test-buttons-none = Rząd przełączników bez przycisku testowego
title-test-buttons-one = Rząd przełączników, w nim jeden szeroki z przyciskiem testowym
title-test-buttons-two = Rząd przełączników, w nim dwa szerokie z przyciskami testowymi
title-test-buttons-each-way = Rząd przełączników, każdy z własnym przyciskiem testowym
text-test-buttons = Tablica bezpiecznikowa z przodu. Przyciski testowe to małe zabarwione kwadraty.
title-spare-ways-none = Rząd przełączników bez wolnego miejsca
title-spare-ways-one = Rząd przełączników z jednym wolnym miejscem
title-spare-ways-several = Rząd przełączników z kilkoma wolnymi miejscami
text-spare-ways = Tablica bezpiecznikowa z przodu. Wolne miejsca to zabarwione gładkie zaślepki.
title-board-case-metal = Obudowa z giętej blachy, śruby w rogach
title-board-case-plastic = Obudowa z tworzywa, zaokrąglone rogi i klapka na zawiasach
title-board-case-wood = Drewniana rama wokół bezpieczników
text-board-case = Tablica bezpiecznikowa z przodu, z zamkniętą klapką.
title-rcd-type-ac = Fala w ramce
title-rcd-type-a = Fala, a pod nią dwa garby na linii, w ramce
title-rcd-type-f = Fala i dwa garby w jednej ramce, szybkie małe fale w drugiej
title-rcd-type-b = Fala i dwa garby w jednej ramce, linia nad kreskami w drugiej
text-rcd-type = Mały znak na przodzie urządzenia z przyciskiem testowym.
title-surge-device = Rząd przełączników, w nim szerokie urządzenie z dwoma okienkami
text-surge-device = Tablica bezpiecznikowa z przodu, z otwartą klapką. Okienka są zabarwione; często są zielone albo czerwone.
title-wall-space = Tablica bezpiecznikowa i wolna ściana obok
text-wall-space = Wolne miejsce zaznacza linia kropkowana.

## Pipes

title-gas-pipe-metal = Metalowa rura ze złączami
title-gas-pipe-plastic = Rura z tworzywa z nasuniętą złączką
title-water-pipe-metal = Metalowa rura ze złączami
title-water-pipe-plastic = Rura z tworzywa z nasuniętą złączką
text-gas-pipe = Rura wychodzi z podłogi.
text-water-pipe = Rura wychodzi z podłogi.
title-gas-clamp = Obejma na rurze, z etykietą i zielono-żółtym przewodem
text-gas-clamp = Obejma jest zabarwiona. Przewód odchodzi w prawo i w dół.
title-water-clamp = Obejma na rurze, z etykietą i zielono-żółtym przewodem
text-water-clamp = Obejma jest zabarwiona. Przewód odchodzi w prawo i w dół. Pod obejmą jest zawór.

## The bill

title-supply-number = Rachunek za prąd z ramką u dołu kartki
text-supply-number = Ramka jest zabarwiona tam, gdzie stoi trzynaście cyfr w grupach. Obok nich jest duże S.
