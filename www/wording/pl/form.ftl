# The homeowner's form, in Polish. Address: „proszę” with the infinitive, „Państwo”; no past forms that show a gender.
# A British trade term stands in brackets once where a Pole in Britain will meet it.
# `{ $installer }` is a name that can't be declined: it stands as a subject or after a colon.

back = Wstecz
go-on = Dalej
done = Gotowe
send = Wyślij do: { $installer }
send-now = Wyślij teraz
progress = Krok { $here } z { $all }, jeszcze około { $minutes ->
    [one] minuty
    [few] { $minutes } minut
    [many] { $minutes } minut
   *[other] { $minutes } minuty
}
progress-last = Krok { $here } z { $all }, jeszcze około minuty
stuck = Utknęli Państwo albo wolą porozmawiać? { $installer }:
so-far-straightforward = Na razie wygląda to na prostą pracę.
so-far-more-involved = Na razie wygląda to na więcej niż zwykłą pracę.
so-far-depends-on-others = Na razie wygląda na to, że najpierw musi się zgodzić ktoś inny. Kto, powie wynik.
so-far-look-first = Na razie wygląda na to, że najpierw ktoś powinien to obejrzeć.
so-far-not-covered = Na razie tego domu nie da się stąd ocenić.
so-far-open-0 = Reszta zmieni cenę tylko trochę.
so-far-open-1 = Jedna rzecz może to jeszcze bardzo zmienić.
so-far-open-2 = Dwie rzeczy mogą to jeszcze bardzo zmienić.
so-far-open-3 = Trzy rzeczy lub więcej mogą to jeszcze bardzo zmienić.
why-open = Dlaczego o to pytamy
not-sure = Nie wiem
none-of-these = Żadne z powyższych
yes = Tak
no = Nie
choose-one = Proszę wybrać jedną odpowiedź. „Nie wiem” to też dobra odpowiedź.
choose-some = Proszę zaznaczyć, co pasuje. „Nie wiem” to też dobra odpowiedź.
fill-in = Proszę to wypełnić albo wybrać wiersz poniżej.
unreadable-postcode = Nie udało się odczytać tego jako kodu pocztowego. Kod wygląda tak: ZZ1 1AA; wystarczy pierwsza część (ZZ1).
beyond-use = Czy to się zgadza? Takiej długości się nie spotyka. Proszę jeszcze raz sprawdzić liczbę i jednostkę.
unreadable-number = Nie udało się odczytać tego jako liczby. Proszę wpisać same cyfry, na przykład 12 albo 12,5.
unreadable-line = Ten tekst jest za długi. Mieści się do 200 znaków.
start-again = Zacznij od nowa
keeps-nothing = Ta przeglądarka niczego nie zapisuje na Państwa urządzeniu, więc proszę nie zamykać tej strony przed wysłaniem.
keeps-no-more = Na urządzeniu nie ma już miejsca, więc dalsze odpowiedzi nie są zapisywane. Proszę nie zamykać tej strony przed wysłaniem.
keeps-no-photos = Ta przeglądarka zapisuje odpowiedzi, ale nie zdjęcia, więc proszę nie zamykać tej strony przed ich wysłaniem.
keeps-no-more-photos = Na urządzeniu nie ma już miejsca na zdjęcia. Odpowiedzi są zapisane; proszę nie zamykać tej strony przed wysłaniem zdjęć.
trouble-loading = Nie udało się teraz wczytać danych instalatora ({ $installer }). Można odpowiadać dalej; cena pojawi się, gdy dane dotrą.
trouble-loading-again = Spróbuj ponownie
panic-sentence = Na tej stronie coś poszło nie tak. Odpowiedzi są zapisane na tym urządzeniu: proszę wczytać stronę ponownie, żeby iść dalej.
look-only = Proszę stanąć w odległości kroku i tylko patrzeć. Niczego nie dotykać, nie naciskać, nie przełączać.
look-only-meter = Jeśli licznik jest w Państwa własnej skrzynce lub szafce, proszę otworzyć jej drzwiczki palcem, za uchwyt, stojąc na podłodze. Jeśli tak się nie otwierają, proszę zostawić je zamknięte i wybrać „Nie wiem”.
look-only-board = Wolno otworzyć tylko klapkę samej tablicy (tę na zawiasach), palcem, stojąc na podłodze. Jeśli tak się nie otwiera, proszę zostawić ją zamkniętą i wybrać „Nie wiem”.
look-only-pipes = Proszę spojrzeć tam, gdzie rury wchodzą do domu. Tylko patrzeć; obejm i przewodów nie ruszać.
distance-in = Mierzone w
unreadable-stretches = Każdy odcinek potrzebuje informacji, którędy biegnie, i długości, na przykład 4 albo 2,5.

unit-metres = metry
unit-feet = stopy
unit-paces = kroki
unit-bricks = cegły wzdłuż ściany
unit-courses = rzędy cegieł w górę ściany

place-first = Najpierw
place-indoors = W domu
place-drive = Na zewnątrz, przy aucie
place-meter = Przy liczniku
place-board = Przy tablicy bezpiecznikowej
place-pipes = Tam, gdzie wchodzą rury

screen-hazard = Punkt ładowania przy Państwa domu
screen-start = Państwa dom
screen-parking = Auto
screen-home = Budynek
screen-kitchen = Prysznice i gotowanie
screen-heating = Ogrzewanie i inne duże urządzenia
screen-sun = Słońce i magazyn energii
screen-wishes = Czego Państwo chcą
screen-half-hour = Ile naraz
screen-spot = Przy miejscu postoju
screen-route = Od tablicy bezpiecznikowej do auta
screen-meter = Licznik
screen-carriers = Zaplombowana skrzynka
screen-street = Kabel z ulicy
screen-head = Przewody przy zaplombowanej skrzynce
screen-rating = Liczba na zaplombowanej skrzynce
screen-outbuilding = Która tablica bezpiecznikowa
screen-board = Tablica bezpiecznikowa
screen-buttons = Przyciski testowe na tablicy
screen-ways = Wolne miejsce na tablicy
screen-more-home = Więcej o domu i aucie
screen-more-power = Więcej o tym, co zużywa prąd
screen-more-solar = Panele słoneczne i magazyny energii
screen-already = O tym, co już jest
screen-more-wishes = Więcej o tym, czego Państwo chcą
screen-bought = Punkt ładowania, który już Państwo mają
screen-more-drive = Więcej o podjeździe
screen-stretches = Trasa kabla, odcinek po odcinku
screen-more-route = Więcej o trasie kabla
screen-more-signal = Zasięg i kabel sieciowy
screen-more-meter = Więcej o liczniku
screen-more-tails = Od licznika do tablicy
screen-more-board = Więcej o tablicy
screen-more-wall = Wokół tablicy
screen-feed = Kabel do budynku obok
screen-pipes = Gdzie wchodzą rury

## First screen

intro-what = Około szesnastu krótkich ekranów i do trzech zdjęć: jakieś osiem minut. „Nie wiem” to też dobra odpowiedź.
intro-who = Wynik widać przed podaniem nazwiska. Nic nie zostanie wysłane, dopóki nie nacisną Państwo „Wyślij”; wtedy dostanie to { $installer }.

## Hazards

hazard-not-sure = W takim razie proszę na razie nie podchodzić do licznika ani do tablicy bezpiecznikowej. Nie poprosimy o ich oglądanie. Zanim cokolwiek zostanie umówione, { $installer } wyjaśni to z Państwem.
emergency-title = Proszę najpierw zrobić to
emergency-leave = Jeśli to jest teraz: proszę wyjść z budynku, wyprowadzić wszystkich i nie wracać. Potem proszę zadzwonić pod 999.
emergency-gas = Czuć gaz: proszę niczego nie włączać ani nie wyłączać i nie używać ognia. Proszę wyjść ze wszystkimi na zewnątrz i zostawić za sobą otwarte drzwi. Dopiero z zewnątrz proszę zadzwonić na pogotowie gazowe w Wielkiej Brytanii (bez Irlandii Północnej): 0800 111 999.
emergency-lights = To może być usterka sieci poza domem. Proszę niczego nie włączać, nie wyłączać ani nie wyciągać z gniazdek. Proszę trzymać się z dala od licznika i tablicy bezpiecznikowej, od kranów i metalowych rzeczy. Proszę od razu zadzwonić pod 105: z każdego miejsca w Wielkiej Brytanii (bez Irlandii Północnej), bezpłatnie, w dzień i w nocy. Jeśli komuś coś się stało, proszę zadzwonić pod 999. Jeśli widać dym albo czuć spaleniznę, proszę wyjść z budynku i zadzwonić pod 999.
emergency-neutral = To może być usterka sieci poza domem, która grozi porażeniem prądem. Proszę trzymać się z dala od kranów i rur, metalowych rzeczy, licznika i tablicy bezpiecznikowej i nikogo tam nie dopuszczać. Proszę nie dotykać nikogo, kto wciąż dotyka metalu. Proszę od razu zadzwonić pod 105: z każdego miejsca w Wielkiej Brytanii (bez Irlandii Północnej), bezpłatnie, w dzień i w nocy. Jeśli komuś coś się stało, proszę zadzwonić pod 999.
emergency-meter = Proszę nie dotykać licznika, zaplombowanej skrzynki ani kabla. Proszę nikogo tam nie dopuszczać i od razu zadzwonić do operatora sieci: 105, z każdego miejsca w Wielkiej Brytanii (bez Irlandii Północnej), bezpłatnie, w dzień i w nocy. Jeśli widać dym lub płomienie, proszę wyjść z budynku i zadzwonić pod 999.
emergency-board = Proszę nie dotykać tablicy bezpiecznikowej. Jeśli teraz jest gorąca, trzeszczy albo czuć spaleniznę, proszę wyjść z pokoju i nikogo tam nie wpuszczać. Proszę nie czekać na odpowiedź na to zapytanie, tylko zadzwonić do elektryka, który może przyjechać od razu. Jeśli to się nasila albo widać dym, proszę wyjść z budynku i zadzwonić pod 999.
emergency-appliance = Proszę się od tego odsunąć: nie dotykać, nie używać i nie wyciągać z gniazdka. Zanim znów będzie używane, musi to obejrzeć elektryk. Jeśli nie ma pewności, że chodzi tylko o to jedno urządzenie, proszę zadzwonić pod 105: z każdego miejsca w Wielkiej Brytanii (bez Irlandii Północnej), bezpłatnie, w dzień i w nocy. Jeśli to się nasila albo widać dym, proszę wyjść z budynku i zadzwonić pod 999.
emergency-elsewhere = Proszę tego nie dotykać i nikogo tam nie dopuszczać. Proszę nie czekać na odpowiedź na to zapytanie, tylko zadzwonić do elektryka, który może przyjechać od razu. Jeśli to się nasila albo widać dym, proszę wyjść z budynku i zadzwonić pod 999.
emergency-unknown-place = Proszę nie dotykać niczego w pobliżu i nikogo tam nie dopuszczać. Proszę zadzwonić pod 105: z każdego miejsca w Wielkiej Brytanii (bez Irlandii Północnej), bezpłatnie, w dzień i w nocy. Tam powiedzą, kto przyjedzie. Jeśli widać dym lub płomienie, proszę wyjść z budynku i zadzwonić pod 999.
emergency-then = Gdy wszyscy będą bezpieczni, nadal można wysłać to zapytanie; wtedy { $installer } będzie o tym wiedzieć.
ring-999 = Zadzwoń: 999
ring-105 = Zadzwoń: 105 (w Wielkiej Brytanii)
ring-gas = Zadzwoń: 0800 111 999 (gaz)
ring-installer = Zadzwoń: { $installer }, { $telephone }
something-else = Jest coś jeszcze
found = Coś jest nie tak
found-title = Coś jest nie tak
found-text = Proszę się odsunąć i niczego nie dotykać. Jeśli jest dym, płomienie lub iskry, proszę wyjść z budynku i zadzwonić pod 999. W innym razie proszę zaznaczyć z pamięci, co Państwo zauważyli.
found-nothing = Jednak nic takiego

question-hazard = Czy zauważyli Państwo coś z tej listy: w domu, przy liczniku prądu, przy tablicy bezpiecznikowej (fuse board) lub gdzie indziej?
hint-hazard = Proszę odpowiedzieć z pamięci. Proszę nie iść teraz tego sprawdzać. Proszę pominąć to, co już naprawiono.
why-hazard = Jeśli coś jest niebezpieczne, ma to pierwszeństwo przed punktem ładowania i nikogo tam nie wyślemy.
option-hazard-smoke = Dym
option-hazard-flame = Płomienie
option-hazard-arcing = Iskry lub błyski
option-hazard-gas-smell = Zapach gazu
option-hazard-buzzing = Brzęczenie lub trzaski
option-hazard-burning-smell = Zapach spalenizny albo ryby
option-hazard-heat = Niezwykłe ciepło od czegoś elektrycznego
option-hazard-discolouration = Ślady przypalenia lub brązowe plamy
option-hazard-melted-plastic = Stopiony albo spęczniały plastik
option-hazard-bare-metal = Gołe przewody albo pęknięte osłony przy przewodach
option-hazard-tingle = Mrowienie lub porażenie prądem przy dotknięciu kranu lub innego metalu
option-hazard-unsteady-lights = Światło za jasne, za słabe lub migające w całym domu albo kilka rzeczy psuje się naraz
option-hazard-none = Nic takiego
question-hazard-when = Kiedy to było?
hint-hazard-when = Tak, jak Państwo pamiętają. Proszę nie wracać, żeby sprawdzić.
why-hazard-when = Coś, co dawno minęło, nie musi dziś przeszkadzać. Ślady przypalenia, stopiony plastik i gołe przewody liczą się, dopóki nie zostaną naprawione.
option-hazard-when-now = Teraz, ostatnio albo więcej niż raz
option-hazard-when-long-ago = Raz, dawno temu, a potem już nie
question-hazard-place = Gdzie to było?
hint-hazard-place = Tak, jak Państwo pamiętają. Proszę nie wracać, żeby sprawdzić.
why-hazard-place = Od tego zależy, do kogo należy zadzwonić.
option-hazard-place-service-head = Przy zaplombowanej skrzynce, gdzie kończy się kabel z ulicy, albo przy tym kablu
option-hazard-place-meter = Przy liczniku
option-hazard-place-board = Przy tablicy bezpiecznikowej
option-hazard-place-appliance = Przy jednej podłączonej rzeczy i nigdzie indziej
option-hazard-place-elsewhere = Gdzie indziej

## Home

question-postcode = Jaki jest kod pocztowy (postcode)?
hint-postcode = Na razie wystarczy pierwsza część, na przykład ZZ1.
why-postcode = Z niego wiadomo, czy { $installer } dojeżdża do Państwa. Przed wysłaniem nigdzie nie trafia.
option-postcode-not-sure = Wolę jeszcze nie podawać
question-tenure = Do kogo należy dom?
hint-tenure = W Anglii i Walii własne mieszkanie (flat) to najczęściej dzierżawa (leasehold).
why-tenure = Przy wynajmie lub dzierżawie przed pracami pyta się właściciela.
option-tenure-own = To moja własność
option-tenure-rent = Wynajmuję
option-tenure-lease = Mam dzierżawę (leasehold)
question-home = Jaki to dom?
why-home = Domy w rzędzie często mają wspólny kabel z ulicy.
option-home-detached = Dom wolnostojący, także parterowy
option-home-semi-detached = Bliźniak, złączony z jednej strony (semi-detached)
option-home-terrace = Dom w szeregu (terraced)
option-home-flat = Mieszkanie (flat)
question-age = Mniej więcej kiedy go zbudowano?
why-age = Starsze domy mają zwykle starsze przewody i rury.
option-age-before-1930 = Przed 1930
option-age-1930-1966 = 1930 do 1966
option-age-1967-1999 = 1967 do 1999
option-age-since-2000 = 2000 lub później
question-old-works = Czy stary punkt ładowania jeszcze ładuje?
why-old-works = Działający częściej wisi na dobrym obwodzie.
question-circuit-papers = Czy jest protokół dla tego obwodu lub kabla?
hint-circuit-papers = Kartka od tego, kto go zakładał. Zdjęcie pomoże.
why-circuit-papers = Mówi, jaki jest kabel i zabezpieczenie.
question-same-place = Czy nowy stanie tam, gdzie stary?
why-same-place = W innym miejscu potrzebny jest nowy kabel.
question-protected = Czy dom jest zabytkiem (listed) albo leży na obszarze chronionym (conservation area)?
why-protected = Wtedy na zamocowanie czegoś na ścianie może być potrzebna zgoda władz lokalnych (council).
option-protected-listed = Jest zabytkiem
option-protected-conservation-area = Leży na obszarze chronionym
option-protected-neither = Ani jedno, ani drugie

## Car

question-parking = Gdzie stoi auto?
why-parking = Punkt ładowania wymaga własnego miejsca, do którego sięgnie jego kabel.
option-parking-drive = Na moim podjeździe lub gruncie
option-parking-attached-garage = W garażu połączonym z domem
option-parking-detached-garage = W garażu, który stoi osobno
option-parking-shared-car-park = Na moim miejscu na wspólnym parkingu
option-parking-street = Na ulicy
question-inlet = Gdzie podłącza się kabel do auta?
hint-inlet = Patrząc z fotela kierowcy.
why-inlet = Kabel musi tam sięgnąć, jakkolwiek auto stoi.
option-inlet-front = Z samego przodu
option-inlet-front-left = Z przodu, po lewej
option-inlet-front-right = Z przodu, po prawej
option-inlet-rear-left = Z tyłu, po lewej
option-inlet-rear-right = Z tyłu, po prawej
option-inlet-rear = Z samego tyłu
option-inlet-not-known-yet = Auto nie jest jeszcze wybrane
question-cars = Ile aut elektrycznych będzie się tu ładować?
why-cars = Dwa auta dzielą się mocą albo jedno czeka na drugie.
question-miles = Ile mil przejeżdżają Państwo w zwykły dzień?
why-miles = Z tego widać, ile ładowania potrzeba w nocy.
question-car-comes = Kiedy będzie auto?
why-car-comes = Z tego widać, jak szybko potrzebne są prace.
option-car-comes-here = Już jest
option-car-comes-within-a-month = W ciągu miesiąca
option-car-comes-later = Później
question-spot-to-car = Jak daleko jest od tego miejsca do najbliższego końca zaparkowanego auta?
hint-spot-to-car = Od miejsca, gdzie wisiałby punkt ładowania, do przodu lub tyłu auta. Wystarczą kroki.
why-spot-to-car = Kabel musi sięgnąć do gniazda auta, jakkolwiek auto stoi.
question-gas-meter-distance = Jak daleko jest od gazomierza do miejsca, gdzie wisiałby punkt ładowania?
hint-gas-meter-distance = Jeśli go nie ma albo nie widać, proszę wybrać „Nie wiem”.
why-gas-meter-distance = Punkt ładowania i wiercenie muszą trzymać się z dala od gazomierza.
question-shared-drive = Czy podjazd jest wspólny z sąsiadem?
hint-shared-drive = Proszę spojrzeć, gdzie kończy się Państwa grunt.
why-shared-drive = Wtedy przed kopaniem i mocowaniem pyta się sąsiada.

## What uses electricity

question-showers = Ile jest pryszniców elektrycznych (electric showers)?
hint-showers = Prysznic elektryczny podgrzewa wodę w skrzynce na ścianie.
why-showers = Taki prysznic może pobierać tyle mocy co punkt ładowania.
question-cooking = Na czym się gotuje?
why-cooking = Kuchnia elektryczna może zużywać część mocy, którą daje przyłącze.
option-cooking-electric = Tylko na prąd
option-cooking-mixed = Piekarnik na prąd, płyta na gaz
option-cooking-gas = Tylko gaz lub inne paliwo
question-heating = Czy dom ogrzewa prąd?
why-heating = Ogrzewanie prądem może zużywać dużą część mocy, którą daje przyłącze.
option-heating-none = Nie
option-heating-storage = Piece akumulacyjne, które grzeją się nocą (storage heaters)
option-heating-direct = Grzejniki na prąd, ogrzewanie podłogowe lub kocioł na prąd
option-heating-heat-pump = Pompa ciepła
question-hot-tub = Czy jest wanna z hydromasażem (hot tub) lub sauna?
why-hot-tub = Obie mogą przez wiele godzin pobierać dużo mocy.
question-other-point = Czy jest już punkt ładowania?
why-other-point = To, na czym wisi stary, może się przydać; o dwa razem trzeba najpierw zapytać operatora sieci (network operator).
question-solar = Czy są panele słoneczne, które wytwarzają prąd?
why-solar = Moc, którą dom oddaje do sieci, liczy się dla operatora sieci.
question-battery = Czy jest domowy magazyn energii (battery)?
hint-battery = Taki, który magazynuje prąd; nie akumulator w aucie.
why-battery = Gdy się ładuje, też pobiera prąd.
option-other-point-none = Nie
option-other-point-replaced = Tak, nowy go zastąpi
option-other-point-kept = Tak, i zostaje
question-shower-power = Jaką moc ma największy prysznic?
hint-shower-power = Liczba przed „kW” z przodu, jeśli ją widać.
why-shower-power = Dzięki temu dokładniej wiadomo, ile mocy dom pobiera naraz.
question-second-shower-power = Jaką moc ma drugi co do mocy prysznic?
hint-second-shower-power = Liczba przed „kW” na jego obudowie, jeśli ją widać.
why-second-shower-power = Dzięki temu dokładniej wiadomo, ile mocy dom pobiera naraz.
question-cooking-power = Jaką moc ma kuchnia?
hint-cooking-power = Liczba przed „kW” na tabliczce lub w papierach, jeśli ją widać.
why-cooking-power = Dzięki temu dokładniej wiadomo, ile mocy dom pobiera naraz.
question-heating-power = Jaką moc ma ogrzewanie?
hint-heating-power = Liczba przed „kW” na tabliczce. Przy pompie ciepła moc, którą pobiera, nie ciepło, które daje.
why-heating-power = Dzięki temu dokładniej wiadomo, ile mocy dom pobiera naraz.
question-hot-tub-power = Jaką moc ma wanna z hydromasażem lub sauna?
hint-hot-tub-power = Liczba przed „kW” w papierach, jeśli są.
why-hot-tub-power = Dzięki temu dokładniej wiadomo, ile mocy dom pobiera naraz.
question-planned = Czy planują Państwo coś dużego?
hint-planned = Pompa ciepła, wanna z hydromasażem, nowa kuchnia: własnymi słowami.
why-planned = To, co przyjdzie później, też ma się zmieścić na tym samym przyłączu.
option-planned-not-sure = Nic mi o tym nie wiadomo
question-highest-half-hour = Jakie było największe zużycie prądu w ciągu pół godziny?
hint-highest-half-hour = W kWh, za pół godziny, nie za dzień. Niektórzy sprzedawcy prądu pokazują to na koncie klienta w internecie.
why-highest-half-hour = Z tego widać, ile dom naprawdę zużywa, gdy dzieje się najwięcej.
question-solar-power = Jaką moc ma falownik paneli słonecznych?
hint-solar-power = Falownik to skrzynka, do której idzie prąd z paneli. Potrzebna jest liczba przed „kW” z jego papierów.
why-solar-power = To, co dom oddaje do sieci, liczy się dla operatora sieci.
question-battery-power = Jaką moc ma falownik magazynu energii?
hint-battery-power = Liczba przed „kW” z jego papierów.
why-battery-power = To, co dom oddaje do sieci, liczy się dla operatora sieci.
question-operator-letter = Czy mają Państwo pismo operatora sieci w sprawie paneli lub magazynu energii?
hint-operator-letter = Przyszło, gdy je zakładano.
why-operator-letter = Wtedy operator już o nich wie i wyraził zgodę.

## Wishes

question-outlet = Czy punkt ładowania ma mieć gniazdo, czy kabel na stałe?
hint-outlet = Do gniazda za każdym razem przynosi się kabel z auta.
why-outlet = Od tego zależy, który punkt ładowania pasuje.
option-outlet-socket = Gniazdo (socket)
option-outlet-lead = Kabel na stałe (tethered)
option-outlet-either = Obojętnie
question-follow-solar = Czy auto ma się ładować najpierw z własnych paneli słonecznych?
hint-follow-solar = Auto ładuje się wtedy wolniej i głównie w dzień.
why-follow-solar = Nie każdy punkt ładowania to potrafi.
question-hold-back = Czy może zwolnić, gdy dom zużywa dużo prądu?
hint-hold-back = Auto naładuje się wtedy trochę później.
why-hold-back = Często dzięki temu nie trzeba prosić o większe przyłącze.
question-lead-length = Jak długi ma być kabel?
hint-lead-length = Od miejsca, gdzie by wisiał, do gniazda auta i jeszcze trochę.
why-lead-length = Długie kable kosztują więcej; krótkie nie sięgają.
question-holder = Czy chcą Państwo uchwyt na kabel?
why-holder = Dzięki niemu kabel nie leży na ziemi.
question-steered-by = Kto włącza ładowanie przy taniej taryfie nocnej?
hint-steered-by = Jest to w papierach od sprzedawcy prądu.
why-steered-by = Jedni sprzedawcy prądu włączają je przez auto, inni przez punkt ładowania.
option-steered-by-car = Sprzedawca prądu, przez auto
option-steered-by-charge-point = Sprzedawca prądu, tylko przez punkt ładowania
option-steered-by-neither = Nikt inny: wystarczy zegar
option-steered-by-not-sure = Nie wiem albo nie ma takiej taryfy
question-gives-back = Czy auto ma też zasilać dom?
hint-gives-back = Potrafi to niewiele aut i punktów ładowania.
why-gives-back = Prąd płynący w obie strony wymaga innych części i zgody operatora sieci.
question-bought = Czy punkt ładowania jest już kupiony?
why-bought = Może być, jeśli z papierów wynika, że jest do tego zrobiony.
question-bought-maker = Kto jest producentem?
hint-bought-maker = Tak, jak jest napisane na nim lub na pudełku.
why-bought-maker = { $installer } sprawdzi, czego on wymaga.
question-bought-model = Jaki to model?
hint-bought-model = Tak, jak jest napisane na nim lub na pudełku.
why-bought-model = { $installer } sprawdzi, czego on wymaga.
question-bought-papers = Czy są do niego papiery?
why-bought-papers = Bez nich nikt nie może powiedzieć, czy wolno go zamontować.

## Route and signal

question-route-length = Mniej więcej jak daleko jest od tablicy bezpiecznikowej do miejsca, gdzie wisiałby punkt ładowania?
hint-route-length = Trasą, którą poszedłby kabel: wzdłuż ścian, za rogami. Proszę ją przejść i policzyć kroki albo policzyć cegły na ścianie. Wystarczy z pamięci.
why-route-length = Im dalej, tym więcej kabla, czasu i kopania.
question-route-mostly = Wzdłuż czego szedłby kabel na dłuższej części?
hint-route-mostly = Tylko najdłuższy odcinek. Proszę patrzeć z ziemi.
why-route-mostly = Po ścianie idzie szybko, pod brukiem powoli.
option-route-mostly-inside = W środku: po ścianach lub w szafkach
option-route-mostly-loft-or-floor = Na strychu lub pod podłogą
option-route-mostly-outside-wall = Po ścianie na zewnątrz
option-route-mostly-fence = Po płocie
option-route-mostly-soft-ground = Pod trawnikiem, grządką lub żwirem
option-route-mostly-paving = Pod brukiem, betonem lub asfaltem
question-route-stretches = Którędy szedłby kabel, odcinek po odcinku?
hint-route-stretches = Proszę zacząć przy tablicy bezpiecznikowej, od tego, co już zostało podane. Nowy odcinek zaczyna się tam, gdzie kabel odszedłby od ściany, poszedłby w górę lub w dół albo wszedłby w ziemię. Proszę patrzeć z ziemi; wystarczą kroki.
why-route-stretches = Każdy odcinek ma własny kabel i własną pracę. Cena będzie dokładniejsza.
along-inside = wewnątrz
along-loft-or-floor = na strychu lub pod podłogą
along-outside-wall = po ścianie na zewnątrz
along-fence = po płocie
along-soft-ground = pod miękką ziemią
along-paving = pod kostką lub płytami
stretch-said = { $along }, { $length }
stretch-said-high = { $along }, { $length }, poza zasięgiem z ziemi
question-ground = Przez czyj grunt szedłby kabel?
hint-ground = Od tablicy bezpiecznikowej do punktu ładowania.
why-ground = Każdego innego właściciela pyta się najpierw. Publiczny chodnik należy do władz lokalnych (council).
option-ground-own = Tylko mój
option-ground-shared = Wspólny
option-ground-others = Cudzy
option-ground-footway = Publiczny chodnik
question-entry = Którędy kabel wyszedłby przez ścianę?
hint-entry = Według tego, co widać z obu stron. Zdecyduje instalator.
why-entry = Od miejsca otworu zależy, ile będzie widać i na co może trafić wiertło.
option-entry-behind-board = Za rozdzielnicą, potem po ścianie na zewnątrz
option-entry-behind-point = Za punktem ładowania; dotąd wewnątrz
option-entry-between = Gdzieś pomiędzy, potem po ścianie na zewnątrz
question-buried = Co wiadomo o rzeczach zakopanych po drodze?
hint-buried = Z planów, z pokryw w ziemi albo z pamięci.
why-buried = Wtedy kopie się obok albo ręcznie.
option-buried-gas = Rura gazowa
option-buried-water = Rura wodna
option-buried-drains = Kanalizacja
option-buried-supply-cable = Kabel prądowy
option-buried-none = Nic mi o tym nie wiadomo
question-overhead-line = Czy nad trasą kabla wisi linia energetyczna?
hint-overhead-line = Proszę spojrzeć w górę, stojąc na ziemi; trzymać się od niej z daleka.
why-overhead-line = Drabiny i druty nie idą w parze.
question-walls = Przez ile ścian przeszedłby kabel?
hint-walls = Ściany w środku i na zewnątrz, od tablicy do punktu ładowania.
why-walls = Każdy otwór zajmuje czas, a przy niektórych ścianach trzeba uważać.
question-wall-thickness = Jak gruba jest najgrubsza z tych ścian?
# A brick is 215 mm long: BS EN 771-1, the usual work size, from memory.
hint-wall-thickness = Grubość widać przy drzwiach lub oknie w tej ścianie. Długość jednej cegły to około 0,2 metra.
why-wall-thickness = Gruba ściana wymaga dłuższego wiertła i więcej czasu.
question-builders-cable = Czy budowlańcy zostawili do niego kabel?
hint-builders-cable = Zwinięta końcówka w garażu albo pusta płytka.
why-builders-cable = Jeśli da się ustalić jego grubość i trasę, może się przydać.
question-farm = Czy kabel zaczyna się w budynku gospodarskim, biegnie przez niego albo się w nim kończy?
hint-farm = Na przykład stodoła, stajnia, obora, także dawna. Pokoje mieszkalne się nie liczą.
why-farm = Tam, gdzie trzyma się zwierzęta, instalacja ma osobne przepisy.
question-wifi-bars = Ile kresek domowego Wi-Fi pokazuje tam telefon?
hint-wifi-bars = Proszę stanąć tam, gdzie będzie auto, i policzyć kreski lub łuki znaku Wi-Fi. Jeśli znaku nie ma wcale, proszę wybrać 0.
why-wifi-bars = Punkt ładowania musi mieć sieć, żeby ładować o właściwej porze.
question-data-cable = Czy przy miejscu postoju jest już kabel sieciowy?
hint-data-cable = Taki, który wtyka się do domowego routera.
why-data-cable = Wtedy słabe Wi-Fi nie przeszkadza.
question-mobile-bars = Ile jest kresek zasięgu telefonu?
hint-mobile-bars = Proszę stanąć tam, gdzie będzie auto.
why-mobile-bars = Niektóre punkty ładowania korzystają z sieci komórkowej.
question-router-place = Gdzie stoi domowy router?
hint-router-place = Mniej więcej. Może być z pamięci.
why-router-place = Gdzie Wi-Fi jest za słabe, kabel sieciowy idzie aż do niego.
option-router-place-by-board = Przy rozdzielnicy
option-router-place-towards-car = Przy ścianie od strony auta
option-router-place-elsewhere = Gdzie indziej w domu

## Meter

question-meter-place = Gdzie jest licznik prądu (electricity meter)?
hint-meter-place = Często jest przy drzwiach wejściowych, pod schodami albo w skrzynce na zewnątrz.
why-meter-place = Tam zaczynają się prace i ktoś musi mieć do niego dostęp.
option-meter-place-indoors = W domu, na widoku
option-meter-place-outside-box = W skrzynce na ścianie na zewnątrz
option-meter-place-cupboard = W szafce
option-meter-place-communal = We wspólnym pomieszczeniu lub korytarzu
question-fuse-carriers = Ile opraw bezpieczników ma zaplombowana skrzynka?
hint-fuse-carriers = W niej kończy się gruby kabel z ulicy (service head), zwykle pod licznikiem. Proszę policzyć oprawy z przodu, jak na rysunku; plomby się nie liczą.
why-fuse-carriers = Jedna to zwykłe przyłącze; trzy to mocniejsze.
option-fuse-carriers-1 = Jedna
option-fuse-carriers-2 = Dwie
option-fuse-carriers-3 = Trzy
question-street-cables = Ile grubych kabli przychodzi z ulicy?
hint-street-cables = Wychodzą z ziemi albo ze ściany, także z linii napowietrznej, i wchodzą do zaplombowanej skrzynki.
why-street-cables = Dwa mogą znaczyć, że prąd do sąsiada idzie przez Państwa dom.
option-street-cables-1 = Jeden
option-street-cables-2 = Dwa
option-street-cables-3 = Trzy
question-head-conductors = Ile przewodów wychodzi z samej zaplombowanej skrzynki?
hint-head-conductors = Proszę liczyć przy zaplombowanej skrzynce, nie przy liczniku. Zielono-żółtego nie liczyć.
why-head-conductors = Cztery przy jednej oprawie mogą znaczyć, że sąsiad korzysta z tego samego kabla.
option-head-conductors-2 = Dwa
option-head-conductors-3 = Trzy
option-head-conductors-4 = Cztery
option-head-conductors-5 = Pięć
option-head-conductors-6 = Sześć
question-carrier-rating = Jaka liczba jest na oprawie bezpiecznika?
hint-carrier-rating = Coś w rodzaju 60, 80 lub 100 A (ampery), jeśli da się ją odczytać z odległości kroku. Plomby nie ruszać.
why-carrier-rating = To najwięcej, co przyłącze mogłoby dać, nie zawsze tyle, ile daje.
question-meter-kind = Jaki to licznik?
hint-meter-kind = Proszę spojrzeć na jego przód. Nie naciskać przycisków.
why-meter-kind = Taryfa nocna albo licznik na przedpłatę zmienia to, co ma sens.
option-meter-kind-one-rate = Jedna taryfa
option-meter-kind-two-rate = Taryfa dzienna i nocna
option-meter-kind-smart = Licznik inteligentny (smart meter)
option-meter-kind-prepayment = Licznik na przedpłatę (prepayment), z kluczem lub kartą
question-switch-after = Czy między licznikiem a tablicą bezpiecznikową jest wyłącznik?
hint-switch-after = Mała skrzynka z jednym dużym przełącznikiem. Proszę patrzeć i zostawić go tak, jak jest.
why-switch-after = Dzięki niemu elektryk nie musi czekać na sprzedawcę prądu.
question-meter-to-board = Jak daleko jest wzdłuż przewodów od licznika do tablicy?
hint-meter-to-board = Z miejsca, gdzie Państwo stoją; następny pokój też się liczy.
why-meter-to-board = Długie przewody w tym miejscu wymagają własnego wyłącznika.
question-backing = Na czym zamontowany jest licznik?
hint-backing = Proszę tylko patrzeć. Nie stukać, nie drapać, nie wiercić.
why-backing = Ciemne, włókniste płyty w starszych domach mogą zawierać azbest i się ich nie rusza.
option-backing-wood = Na zwykłym drewnie
option-backing-dark-or-fibrous = Na ciemnej lub włóknistej płycie
option-backing-other = Na metalu, plastiku lub ścianie
question-earth-goes = Dokąd idzie gruby zielono-żółty przewód?
hint-earth-goes = Proszę śledzić go tylko wzrokiem.
why-earth-goes = Z tego widać, jak uziemiony jest dom.
option-earth-goes-service-head = Do zaplombowanej skrzynki
option-earth-goes-cable-sheath = Do metalowego płaszcza kabla z ulicy
option-earth-goes-rod = Do pręta w ziemi

## Board

question-board-there = Czy tablica bezpiecznikowa, którą będą Państwo oglądać, jest w garażu?
hint-board-there = „Nie”, jeśli to tablica w domu albo garaż nie ma własnej.
why-board-there = Tablicę w garażu zasila kabel, który może być za słaby.
question-protection = Co jest w tablicy bezpiecznikowej (fuse board, consumer unit)?
hint-protection = Często jest w przedpokoju, pod schodami lub przy liczniku.
why-protection = Przy starych bezpiecznikach punkt ładowania dostaje własną małą tablicę.
option-protection-fuse-wire = Stare bezpieczniki w bloczkach
option-protection-breakers = Rzędy małych przełączników
question-test-buttons = Ile przycisków testowych ma tablica bezpiecznikowa?
hint-test-buttons = Małe przyciski z literą T lub słowem Test. Proszę ich nie naciskać.
why-test-buttons = Z nich widać, które obwody już chronią przed porażeniem.
option-test-buttons-none = Żadnego
option-test-buttons-one = Jeden
option-test-buttons-two = Dwa
option-test-buttons-each-way = Po jednym na każdym przełączniku lub prawie każdym
question-spare-ways = Ile wolnych miejsc zostało na tablicy bezpiecznikowej?
hint-spare-ways = Wolne miejsca zakrywają gładkie zaślepki bez przełącznika. Zaślepek nie ruszać.
why-spare-ways = Punkt ładowania potrzebuje miejsca na tablicy albo małej tablicy obok.
option-spare-ways-none = Żadne
option-spare-ways-one = Jedno
option-spare-ways-several = Dwa lub więcej
question-boards = Ile tablic bezpiecznikowych ma dom?
hint-boards = Proszę policzyć te, o których Państwo wiedzą, także w garażu i szopie.
why-boards = Z tego widać, jak rozdzielony jest prąd.
question-which-board = Czy opisana rozdzielnica to ta dla punktu ładowania?
hint-which-board = Często najlepsza jest ta z wolnym miejscem albo bliżej auta.
why-which-board = Liczy się tylko to, co widać w tej rozdzielnicy.
option-which-board-described = Tak, ta
option-which-board-another = Nie, inna: obejrzy ją instalator
question-board-case = Z czego jest jej obudowa?
hint-board-case = Na oko; nie trzeba dotykać.
why-board-case = Nowsze tablice są metalowe, żeby ogień się nie rozszerzał.
option-board-case-metal = Z metalu
option-board-case-plastic = Z plastiku
option-board-case-wood = Z drewna
question-rcd-type = Jaki znak jest przy przycisku testowym?
hint-rcd-type = Ramka z jedną falą to AC; fala nad garbami to A. Proszę tylko patrzeć.
why-rcd-type = Niektóre nie wykrywają prądu, który może upływać z auta.
option-rcd-type-ac = AC: jedna fala
option-rcd-type-a = A: fala i garby
option-rcd-type-f = F
option-rcd-type-b = B
question-surge-device = Czy w tablicy jest część z małym zielonym okienkiem?
hint-surge-device = Może mieć napis SPD. Proszę tylko patrzeć.
why-surge-device = Chroni przed przepięciami, a jedna wystarczy.
question-wall-space = Czy obok tablicy jest wolna ściana?
hint-wall-space = Mniej więcej jak pudełko po butach.
why-wall-space = Tam zawisłaby druga, mała tablica.
question-board-maker = Jaka nazwa jest na tablicy?
hint-board-maker = Tak, jak jest napisane, jeśli da się odczytać.
why-board-maker = Nowe części muszą być zrobione do tej tablicy.
question-report = Czy mają Państwo protokół lub świadectwo instalacji (certificate)?
hint-report = Kilka wydrukowanych stron od elektryka.
why-report = Są w nim liczby, których nikt nie musi wtedy zgadywać.
question-feed-length = Jak długi jest kabel z domu do budynku obok?
hint-feed-length = Tak, jak idzie kabel; mniej więcej.
why-feed-length = Długi, cienki kabel nie uciągnie punktu ładowania.
question-feed-device = Jaka liczba jest na przełączniku, który zasila budynek obok?
hint-feed-device = Na tablicy w domu, na przykład 16 lub 32 A (ampery). Proszę tylko patrzeć.
why-feed-device = Z tego widać, ile ten kabel może przenieść.
question-feed-size = Jaki przekrój ma ten kabel?
hint-feed-size = Jak na napisie wzdłuż kabla lub na rachunku, na przykład 6 mm². Proszę tylko patrzeć.
why-feed-size = Z tego widać, ile ten kabel może przenieść.

## Pipes

question-gas-pipe = Z czego jest rura gazowa tam, gdzie wchodzi do domu?
hint-gas-pipe = Na oko.
why-gas-pipe = Metalową rurę łączy się z uziemieniem domu.
question-gas-clamp = Czy na rurze gazowej jest obejma z zielono-żółtym przewodem?
hint-gas-clamp = Przy gazomierzu. Proszę tylko patrzeć.
why-gas-clamp = Dzięki niej rura i przewody mają mniej więcej ten sam potencjał, więc porażenie jest mniej prawdopodobne.
question-water-pipe = Z czego jest rura wodna tam, gdzie wchodzi do domu?
hint-water-pipe = Przy zaworze, który zamyka wodę.
why-water-pipe = Metalową rurę łączy się z uziemieniem domu.
question-water-clamp = Czy na rurze wodnej jest obejma z zielono-żółtym przewodem?
hint-water-clamp = Przy zaworze, który zamyka wodę. Proszę tylko patrzeć.
why-water-clamp = Dzięki niej rura i przewody mają mniej więcej ten sam potencjał, więc porażenie jest mniej prawdopodobne.
question-other-metal = Co jeszcze z metalu wchodzi z ziemi do domu?
hint-other-metal = Proszę spojrzeć na ściany i podłogę wewnątrz i na to, co wychodzi z ziemi na zewnątrz.
why-other-metal = Każdą z tych rzeczy łączy się z uziemieniem domu.
option-other-metal-oil = Rura z olejem opałowym
option-other-metal-lpg = Rura od zbiornika lub butli z gazem
option-other-metal-steel = Stalowe belki lub słupy budynku
option-other-metal-none = Nic z tego
question-other-clamp = Czy na każdej z nich jest obejma z zielono-żółtym przewodem?
hint-other-clamp = Tam, gdzie wchodzi. Proszę tylko patrzeć.
why-other-clamp = Dzięki niej metal i przewody mają mniej więcej ten sam potencjał, więc porażenie jest mniej prawdopodobne.
word-metal = Z metalu
word-plastic = Z plastiku
word-no-pipe = Nie ma takiej rury
word-0 = 0
word-1 = 1
word-2 = 2
word-3 = 3
word-4 = 4
word-5 = 5
word-6 = 6
word-7 = 7
word-8 = 8
word-9 = 9

## What may end the matter

ending-northern-ireland = W Irlandii Północnej są inne przepisy i inna sieć, a my nie mamy dla niej liczb. Można iść dalej i wysłać zapytanie; ceny nie będzie.
ending-outside-area = To miejsce leży poza obszarem, do którego zwykle dojeżdża { $installer }. Można iść dalej i zapytać; ceny nie będzie.
ending-street-only = Kabel nie może leżeć w poprzek publicznego chodnika, więc własny punkt ładowania może tu nie być możliwy. Władze lokalne (council) powiedzą, czy zezwalają na kanał w chodniku. Można iść dalej i zapytać.
ending-landlord = Najpierw pyta się właściciela budynku. Można iść dalej i zapytać go w międzyczasie.

## Photos

photo-parking = Zdjęcie miejsca, gdzie stoi auto
photo-meter = Zdjęcie licznika i zaplombowanej skrzynki
photo-board = Zdjęcie tablicy bezpiecznikowej
photo-pipes = Zdjęcie miejsca, gdzie wchodzą rury
photo-other = Inne zdjęcie
photo-hint-parking = Z odległości kilku kroków, ze ścianą, na której mógłby wisieć punkt ładowania.
photo-hint-meter = Z odległości kroku. Jeśli drzwiczki nie otwierają się za własny uchwyt, wystarczy zdjęcie zamkniętych.
photo-hint-board = Z odległości kroku, z otwartą klapką, jeśli otwiera się palcem.
photo-hint-pipes = Z odległości kroku, z rurami i zielono-żółtym przewodem, jeśli jest.
photo-hint-other = Z odległości kroku.
photo-take = Zrób zdjęcie
photo-choose = Wybierz obraz
photo-remove = Usuń
photo-shown = Państwa zdjęcie
photo-busy = Zmniejszamy zdjęcie …
photo-private = Gdzie i jakim telefonem je zrobiono, zostaje usunięte. Przed wysłaniem nigdzie nie trafia.
photo-trouble-not-a-picture = Nie udało się odczytać tego jako obrazu. Zdjęcie lub zrzut ekranu zadziała.
photo-trouble-not-secure = Ta strona przyszła połączeniem, które nie jest bezpieczne, więc nie można tu dodać zdjęć. Można o nich powiedzieć, gdy zadzwoni { $installer }.
photo-trouble-no-copy = Ta przeglądarka nie umiała zmniejszyć zdjęcia. Można iść dalej bez niego i pokazać je później.
photo-trouble-too-many = Więcej zdjęć w jednym zapytaniu się nie zmieści.

## Contact

contact-title = Jak { $installer } może się z Państwem skontaktować?
contact-name = Imię i nazwisko
contact-telephone = Telefon
contact-email = E-mail
contact-one = Telefon lub e-mail: jedno wystarczy.
contact-reach = Jak najlepiej się skontaktować?
reach-telephone = Telefonicznie
reach-message = SMS-em
reach-email = E-mailem
contact-when = O jakiej porze najlepiej?
contact-note = Coś jeszcze?
contact-optional = (nieobowiązkowo)
contact-operator = Dla operatora sieci
contact-operator-text = { $installer } musi zawiadomić firmę, do której należy kabel z ulicy (operatora sieci). Z tymi danymi można wypełnić jej formularz. Czego nie ma pod ręką, można pominąć.
contact-address = Pełny adres
contact-supply-number = Numer przyłącza (MPAN)
contact-supply-number-hint = Trzynaście cyfr na rachunku za prąd, często w ramce z literą S. To nie jest numer na liczniku.
contact-supply-number-solar = Przy panelach słonecznych może być drugi numer, dla prądu sprzedawanego. Potrzebny jest ten dla prądu kupowanego.
contact-supply-number-short = Na razie cyfr: { $count } z 13.
contact-supply-number-again = Proszę spojrzeć jeszcze raz: te cyfry do siebie nie pasują. Można je wysłać tak, jak są.
contact-offers = { $installer } może mi też później przysyłać oferty. Mogę to w każdej chwili odwołać.
notice-title = Co się stanie z tym, co Państwo wyślą
notice-who = Dostaje to { $who }, żeby Państwu odpowiedzieć i obliczyć cenę. Proszą Państwo o to, zanim dojdzie do umowy (UK GDPR, art. 6 ust. 1 lit. b).
notice-else = Po drodze mogą to przetwarzać ci, którzy prowadzą stronę, pocztę lub przechowują dane dla: { $who }. Jeśli dojdzie do prac, operator sieci i inni, którzy muszą się zgodzić, dostaną to, co jest im potrzebne.
notice-days = Przechowywane jest to przez { $days ->
    [one] jeden dzień
    [few] { $days } dni
    [many] { $days } dni
   *[other] { $days } dnia
}, a potem usuwane. Jeśli dojdzie do prac, dokumenty mogą zostać dłużej.
notice-days-open = Jak długo jest to przechowywane, powie { $who }.
notice-rights = Mogą Państwo poprosić o wgląd, poprawienie, wstrzymanie użycia, usunięcie albo wydanie tego w pliku. Można też złożyć skargę do urzędu Information Commissioner’s Office.
notice-link = Informacja o prywatności: { $who }
contact-name-missing = Proszę podać imię i nazwisko.
contact-way-missing = Proszę podać numer telefonu lub adres e-mail.
contact-email-unreadable = Nie udało się odczytać tego jako adresu e-mail.
contact-photos = Razem z tym { $count ->
    [one] wysyłane jest jedno zdjęcie.
    [few] wysyłane są { $count } zdjęcia.
    [many] wysyłanych jest { $count } zdjęć.
   *[other] wysyłane jest { $count } zdjęcia.
}
sending = Wysyłanie …
sending-photos = Wysyłanie zdjęcia { $here } z { $all } …
sending-again = Spróbuj ponownie
send-trouble-no-answer = Nie udało się przesłać. Wszystko jest tu zapisane. Proszę spróbować za chwilę albo zadzwonić: { $telephone }.
send-waiting = Jeszcze się nie przesłało. Jest zapisane na tym urządzeniu i pójdzie samo, gdy będzie zasięg: dopóki ta strona jest otwarta albo gdy znów ją Państwo otworzą.
send-waiting-open = Jeszcze się nie przesłało. Pójdzie samo, gdy będzie zasięg. Ta przeglądarka niczego nie zapisuje, więc proszę zostawić stronę otwartą.
send-stop = Jednak nie wysyłaj
send-trouble-nowhere = Ta strona sama nie przyjmuje odpowiedzi. Proszę wybrać poniżej, jak dostanie je { $installer }.
send-trouble-not-secure = Ta strona przyszła połączeniem, które nie jest bezpieczne, więc nic nie zostanie stąd wysłane. Proszę zadzwonić: { $telephone }.
send-trouble-refused = Nie przyjęto tego: { $said } Wszystko jest tu zapisane. Można też zadzwonić: { $telephone }.
send-trouble-photos = Zapytanie dotarło, pod numerem { $reference }, ale nie wszystkie zdjęcia się przesłały. Wszystko jest tu zapisane.

sent-title = Dotarło
sent-reference = Państwa numer zapytania
sent-text = { $installer } ma Państwa zapytanie. Dzwoniąc pod { $telephone }, proszę podać ten numer zapytania.

## After sending, and links

add-title = Uzupełnienie
add-later-title = Chcą Państwo coś dodać później?
add-later-text = Tym odnośnikiem można dodać zdjęcia z innego urządzenia albo innego dnia. Niczego więcej nie otwiera.
add-photo = Dodaj zdjęcie
add-photos-text = Zdjęcia, które Państwo tu dodadzą, dostanie { $installer } razem z wysłanym zapytaniem.
add-photos-no-look = Zdjęcia miejsca na auto albo te, które już Państwo mają, dostanie { $installer } razem z wysłanym zapytaniem. Proszę na razie nie podchodzić do licznika ani do tablicy bezpiecznikowej.
add-answers-text = { $installer } o to pyta. Te odpowiedzi trafią do wysłanego zapytania; reszta zostaje w nim bez zmian.
add-nothing = Nie ma jeszcze nic do wysłania.
move-title = Dokończ na innym urządzeniu
