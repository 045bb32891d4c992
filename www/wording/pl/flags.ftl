# Flags in Polish: what the homeowner is told (`flag-CODE`: plain words, no blame, nothing to do at the equipment), and the condition on
# which a job holds (`if-CODE`: "Straightforward, if …"). The installer reads English.

flag-asbestos-when-drilling = W domach z tych lat niektóre płyty mogą zawierać azbest. Instalator sprawdza to przed wierceniem.

flag-backing-board-suspect = Płyta za licznikiem jest taka, że instalator najpierw ją obejrzy. Do tego czasu się jej nie rusza.
if-backing-board-suspect = płyta za licznikiem okaże się nieszkodliwa

flag-battery-beside = Mają Państwo magazyn energii. Instalator ustawi go tak, żeby nie rozładowywał się do auta.

flag-board-full = Na tablicy bezpiecznikowej nie ma już miejsca. Zwykle pomaga osobna mała skrzynka obok.

flag-board-seen-disagrees = Dwie rzeczy, które widać przy tablicy bezpiecznikowej, do siebie nie pasują. Instalator przejdzie je z Państwem jeszcze raz.
if-board-seen-disagrees = wyjaśni się to, co widać przy tablicy bezpiecznikowej

flag-bonding-not-seen = Nie widać przewodu ochronnego do rury gazu lub wody. Może być ukryty; jeśli go nie ma, zwykle się go dodaje.

flag-bought-already = Punkt ładowania już jest. Z jego papierów instalator dowie się, czy można go tu zamontować. Bez nich montażu nie ma w cenie.
if-bought-already = papiery punktu ładowania pokażą, że można go tu zamontować

flag-builders-cable = Być może budowlańcy zostawili do tego kabel. Instalator sprawdzi, czy się przyda.

flag-buried-services = Po drodze w ziemi mogą leżeć rury lub kable. Instalator odszuka je przed kopaniem.

flag-cable-on-a-fence = Część kabla biegłaby po płocie. Płot bywa sąsiada i rzadko przetrwa tyle co kabel; instalator poszuka lepszej drogi.
if-cable-on-a-fence = płot należy do Państwa i jest mocny albo znajdzie się inna droga

flag-carrier-rating-is-a-bound = Liczba na zaplombowanej skrzynce to najwięcej, co może się w niej zmieścić. Bezpiecznik w środku może być mniejszy.

flag-communal-meter = Licznik jest we wspólnym miejscu. Instalatora musi wpuścić ktoś, kto opiekuje się budynkiem.
if-communal-meter = opiekun budynku wpuści instalatora

flag-conservation-area = Dom leży na obszarze chronionym (conservation area). Czasem trzeba zapytać władze lokalne (council).

flag-demand-over-limit = Dom może pobierać naraz dużo mocy. Być może najpierw trzeba zapytać operatora sieci.
if-demand-over-limit = operator sieci się zgodzi

flag-device-to-confirm = Na tablicy bezpiecznikowej jest miejsce. Czy robi się do niej właściwą część, zostanie sprawdzone.

flag-digging = Część kabla być może pójdzie pod ziemią. Kopanie trwa dłużej niż mocowanie kabla na ścianie.

flag-direct-current-not-sensed = Punkt ładowania może wymagać specjalnego wyłącznika ochronnego, który kosztuje więcej. Wynika to z jego papierów.

flag-earthing-unknown = Nie wiadomo jeszcze, jak uziemiony jest dom. Instalator to zmierzy.

flag-farm-building = Instalacja w budynku gospodarskim ma własne przepisy. Instalator najpierw ją obejrzy.
if-farm-building = pozwoli na to instalacja w budynku gospodarskim

flag-fire-stopping = Otwory w ścianach między mieszkaniami uszczelnia się potem przeciw ogniowi. Zarządca budynku ma plan na wypadek pożaru; proszę zapytać, co mówi o ładowaniu aut.

flag-footway-crossing = Trasa do auta przecina publiczny chodnik. Najpierw muszą się zgodzić władze lokalne (council).

flag-fuse-rating-not-read = Nie wiadomo jeszcze, jaki jest bezpiecznik główny, więc przyjęto zwykły.

flag-fuse-wire-board = Tablica bezpiecznikowa jest starszego typu. Instalator ją obejrzy i oceni.
if-fuse-wire-board = starsza tablica bezpiecznikowa okaże się sprawna

flag-generation-without-letter = Do paneli słonecznych lub magazynu energii tej wielkości zwykle jest pismo operatora sieci. Instalator o nie zapyta.
if-generation-without-letter = operator sieci wie o Państwa panelach lub magazynie energii

flag-half-hour-hides-load = Panele słoneczne lub magazyn energii zakrywają część tego, co Państwo zużywają. Instalator to uwzględni.

flag-half-hour-implausible = Liczba za pół godziny wygląda raczej na cały dzień. Nie uwzględniono jej w całości.
if-half-hour-implausible = wyjaśni się podane zużycie w ciągu pół godziny

flag-hazard-long-ago = Kiedyś, dawno temu, coś zwróciło Państwa uwagę. Instalator obejrzy to miejsce na nowo.

flag-hazard-not-sure = Nie jest jeszcze jasne, czy coś jest niebezpieczne, więc pytania o licznik i tablicę bezpiecznikową mogą poczekać.
if-hazard-not-sure = nie znajdzie się nic niebezpiecznego

flag-hazard-seen = Zauważono coś, co może być niebezpieczne. To ma pierwszeństwo przed wszystkim innym.

flag-high-work = Część trasy kabla jest wysoko, więc instalator przyniesie to, co jest potrzebne, żeby tam sięgnąć.

flag-higher-risk-building = Jeśli budynek jest bardzo wysoki, przed wierceniem między mieszkaniami trzeba zapytać urząd bezpieczeństwa budynków. Instalator o to zapyta.

flag-landlord = Najpierw musi wyrazić pisemną zgodę ten, do kogo należy budynek.
if-landlord = zgodzi się ten, do kogo należy budynek

flag-larger-cable = Trasa jest długa albo dla kabla ciepła, więc prawdopodobnie potrzebny będzie grubszy kabel.

flag-lead-reaches-one-way = Kabel może sięgać tylko wtedy, gdy auto stoi w jedną stronę. Instalator obejrzy to razem z Państwem.
if-lead-reaches-one-way = kabel sięgnie do auta tak, jak je Państwo parkują

flag-lead-too-short = Żaden z dostępnych kabli nie jest tak długi, jak by Państwo chcieli. Instalator obejrzy miejsce razem z Państwem.

flag-length-beyond-use = Jedna z podanych długości jest większa, niż się spotyka. Proszę sprawdzić ją jeszcze raz.
if-length-beyond-use = podane długości się zgadzają

flag-listed = Dom jest zabytkiem (listed). Zanim cokolwiek zostanie na nim zamocowane, muszą się zgodzić władze lokalne (council).
if-listed = zgodzą się władze lokalne (council)

flag-load-limit-designed = Gdy dom zużywa dużo prądu, punkt ładowania sam by zwalniał, żeby zmieścić się w tym, co wytrzyma bezpiecznik główny.

flag-looped-supply = Kabel z ulicy może być wspólny z sąsiadem. Najpierw trzeba zapytać operatora sieci.
if-looped-supply = okaże się, że kabel z ulicy jest tylko Państwa

flag-main-switch-not-read = Wyłącznik główny tablicy bezpiecznikowej musi unieść też punkt ładowania. Instalator to sprawdzi.
if-main-switch-not-read = wyłącznik główny tablicy bezpiecznikowej okaże się wystarczająco mocny

flag-near-gas-meter = Punkt ładowania wisiałby blisko gazomierza. Instalator może go trochę przesunąć.
if-near-gas-meter = znajdzie się miejsce wystarczająco daleko od gazomierza

flag-night-heating = Piece pobierają prąd nocą, gdy zwykle ładuje się też auto. Plan uwzględnia jedno i drugie.

flag-no-loop-seen = Nic nie wskazuje na to, że kabel z ulicy jest wspólny z sąsiadem. Czasem z wnętrza domu tego nie widać, więc zostanie to sprawdzone.

flag-no-size-passes = Auto stoi daleko od tablicy bezpiecznikowej. Instalator poszuka innego sposobu.
if-no-size-passes = znajdzie się krótsza trasa kabla

flag-no-surge-device = Tablica bezpiecznikowa chyba nie ma ochrony przed przepięciami, na przykład od pioruna. Zwykle się ją proponuje; można z niej zrezygnować.

flag-no-wall-space = Obok tablicy bezpiecznikowej nie ma miejsca na małą skrzynkę, więc może trzeba będzie wymienić samą tablicę.

flag-northern-ireland = W Irlandii Północnej obowiązują inne przepisy, których ta strona nie zna.

flag-off-peak-not-steered = Przy taryfie nocnej punkt ładowania musi włączać sprzedawca prądu. Instalator sprawdzi, który na to pozwala.

flag-old-point-replaced = To, na czym wisi stary punkt ładowania, może wystarczyć nowemu; instalator najpierw to sprawdzi.

flag-operator-dates-disagree = Instalator sprawdzi, którego dnia odpowiedział operator sieci.
if-operator-dates-disagree = odpowiedź operatora sieci dotyczy tej pracy

flag-operator-refused = Operator sieci jak dotąd odmówił. Instalator zapyta, na co by się zgodził.

flag-operators-limit = Operator sieci zgodził się, ale ograniczył moc, którą dom może pobierać naraz. Instalator to ustawi.

flag-outbuilding-board = Tablica w garażu często ma cienki kabel. Instalator go sprawdzi, zanim go uwzględni.
if-outbuilding-board = kabel do budynku obok okaże się wystarczająco gruby

flag-outbuilding-electrode = Budynek obok może potrzebować własnego uziomu (pręta w ziemi). Instalator to zbada.
if-outbuilding-electrode = uziemienie budynku obok okaże się dobre

flag-outside-area = Dom leży poza obszarem, do którego dojeżdża ten instalator.

flag-outside-meter-box = Większość tego, co jest w skrzynce licznika na zewnątrz, należy do operatora sieci i sprzedawcy prądu. Nowe części trafią do środka.

flag-overhead-line = W pobliżu trasy kabla wiszą druty. Instalator zaplanuje pracę z dala od nich.
if-overhead-line = druty nad trasą są wystarczająco daleko

flag-planned-load = Planują Państwo coś jeszcze, co zużywa prąd. Instalator weźmie to pod uwagę.

flag-pme-outdoors = Przyłącze jest często spotykanego typu, który dla auta na zewnątrz wymaga dodatkowej ochrony. Jest ona w planie.

flag-power-both-ways = Auto ma też zasilać dom. Auto i punkt ładowania muszą być do tego zrobione, a operator sieci wyraża wcześniej zgodę. Cena tutaj jest ze zwykłym punktem.
if-power-both-ways = operator sieci zgodzi się, by auto zasilało dom

flag-report-to-photograph = Są papiery od instalacji. Ich zdjęcia oszczędzą instalatorowi części pomiarów.

flag-scottish-flat = W Szkocji najpierw zgadzają się współwłaściciele budynku albo jego zarządca (factor).
if-scottish-flat = zgodzą się współwłaściciele budynku albo jego zarządca

flag-scottish-planning = W Szkocji punkt ładowania do pewnej wielkości nie wymaga zgody planistycznej. Instalator się tego trzyma.

flag-second-charge-point = Przy dwóch punktach ładowania najpierw trzeba zapytać operatora sieci.
if-second-charge-point = operator sieci zgodzi się na dwa punkty ładowania

flag-several-boards = Jest więcej niż jedna tablica bezpiecznikowa. Instalator zobaczy, która się nadaje.

flag-shared-car-park = Miejsce postoju jest na wspólnym parkingu. Najpierw musi się zgodzić ten, kto się nim opiekuje.
if-shared-car-park = zgodzi się ten, kto opiekuje się parkingiem

flag-shared-ground = Trasa prowadzi przez grunt wspólny lub cudzy. Musi się zgodzić jego właściciel lub współwłaściciel.
if-shared-ground = zgodzi się właściciel lub współwłaściciel gruntu

flag-shared-residual-device = Wolne miejsce na tablicy bezpiecznikowej może mieć wyłącznik ochronny wspólny z innymi obwodami. Zwykle pomaga osobna skrzynka.

flag-signal-marginal = Wi-Fi w tym miejscu nie jest ani dobre, ani złe. Instalator zmierzy je jeszcze raz.

flag-split-phase = Przyłącze jest rzadziej spotykanego typu. Instalator obejrzy je przed ustaleniem terminu.
if-split-phase = przyłącze okaże się typowe

flag-street-parking = Auto stoi na ulicy. Kabel może przeciąć chodnik tylko tam, gdzie władze lokalne (council) zezwolą na kanał.

flag-supplier-must-isolate = Być może sprzedawca prądu (supplier) musi raz przyjechać i odłączyć prąd na czas prac. Może to potrwać kilka tygodni.
if-supplier-must-isolate = ktoś uprawniony będzie mógł odłączyć prąd na czas prac

flag-supply-counts-disagree = Dwie rzeczy policzone przy liczniku do siebie nie pasują. Instalator obejrzy je z Państwem jeszcze raz.

flag-supply-not-counted = Nie wiadomo jeszcze, jakie przyłącze ma dom. Instalator ustali to najpierw.
if-supply-not-counted = przyłącze okaże się typowe

flag-supports-in-a-fire = Kabel w środku trzymają metalowe uchwyty, żeby nie spadł podczas pożaru.

flag-surge-device-finds-no-gap = Na tablicy bezpiecznikowej jest jedno wolne miejsce, a mogą go potrzebować dwie części. Zwykle pomaga mała skrzynka obok.

flag-tails-long = Licznik i tablica bezpiecznikowa są od siebie oddalone. Być może potrzebny będzie dodatkowy wyłącznik przy liczniku.

flag-thick-wall = Ściana jest gruba. Wiercenie potrwa dłużej.

flag-three-phase = Dom może mieć mocniejsze przyłącze, tak zwane trójfazowe (three-phase). Dobrze o tym wiedzieć przy wyborze.

flag-tn-s-may-be-pme = Uziemienie przychodzi kablem z ulicy. Zwykle dostaje taką samą dodatkową ochronę jak nowsze przyłącza.

flag-tt-electrode = Dom ma własny uziom (pręt w ziemi). Instalator zbada go, zanim zaplanuje na nim punkt ładowania.
if-tt-electrode = Państwa uziom dobrze wypadnie w pomiarze

flag-type-ac-upstream = Wyłącznik ochronny w tablicy bezpiecznikowej jest starszego typu. Instalator to uwzględni.

flag-weak-signal = Tam, gdzie miałby być punkt ładowania, Wi-Fi jest słabe. Zwykle pomaga kabel sieciowy obok zasilającego.

flag-which-board = Jest więcej niż jedna rozdzielnica i nie wiadomo jeszcze, która się nadaje. Instalator obejrzy.
if-which-board = wiadomo będzie, która rozdzielnica się nadaje
