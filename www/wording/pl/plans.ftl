# Plany: trasa kabla, odcinek po odcinku, i zasięg kabli ładowania. Głos jak w form.ftl.

## Stretches

stretch-n = Odcinek { $n }
stretch-name = Odcinek { $n }, { $along }, { $length }
stretch-along = Biegnie
stretch-choose = Proszę wybrać, którędy biegnie
stretch-length = Długość
stretch-high = Poza zasięgiem z ziemi (powyżej około 3 m)
stretch-add = Dodaj następny
stretch-earlier = Przesuń wcześniej
stretch-later = Przesuń później
stretch-split = Podziel
stretch-out = Usuń
stretch-did-add = Nowy odcinek: { $n }.
stretch-did-move = To jest teraz odcinek { $n } z { $all }.
stretch-did-split = Podzielono na dwa: odcinki { $n } i { $next }.
stretch-did-out = Usunięto. Pozostałe odcinki: { $all }.
stretch-total = Razem { $metres }
stretch-total-in = Razem { $metres } ({ $count } { $unit })
stretch-total-open = Na razie { $metres }; jeden odcinek jest jeszcze niepełny
stretch-unit = Mierzone w

## What they take

laid-flat = { $metres } wewnątrz, zwykłym kablem domowym
laid-armoured = potrzebny jest kabel pancerny (armoured cable): { $metres }
laid-dug = do wykopania: { $metres }
laid-dug-paved = do wykopania pod kostką lub płytami: { $metres }
laid-dug-paving = do wykopania: { $metres }, z tego { $paving } pod kostką lub płytami
laid-high = { $metres } poza zasięgiem: drabina albo rusztowanie

## The drawing

way-board = tablica bezpiecznikowa
way-title = Trasa kabla
way-text = Od tablicy bezpiecznikowej do punktu ładowania, rozwinięta prosto i w skali. { $stretches }.
way-point = punkt ładowania

## The reach of the leads

reach-heading = Który kabel sięgnie?
reach-heading-own = Jak długi musi być kabel?
reach-title = Auto i kable z góry
reach-nose-label = przód
reach-footway-label = chodnik
reach-shown-nose = Tu przodem do punktu ładowania. Gniazdo auta: { $inlet }.
reach-shown-tail = Tu tyłem do punktu ładowania. Gniazdo auta: { $inlet }.
reach-turn = Obróć auto
reach-move = Przesuń gniazdo
reach-take = Moje auto ma je tam
reach-both = Kabel { $lead } sięgnie, jakkolwiek auto stoi.
reach-nose = Kabel { $lead } sięgnie tylko przodem.
reach-tail = Kabel { $lead } sięgnie tylko tyłem.
reach-neither = Kabel { $lead } nie sięgnie.
reach-footway = Kabel { $lead } musiałby leżeć w poprzek chodnika: to niedozwolone.
reach-any = Kabel { $lead } sięgnie do każdego auta, jakkolwiek stoi.
reach-some = Kabel { $lead } sięgnie do niektórych aut: zależy od miejsca gniazda.
reach-needed = Do tego gniazda potrzeba { $nose } przodem, { $tail } tyłem, przy aucie średniej wielkości.
reach-assumed = Tak jakby auto stało { $metres } od punktu ładowania.
reach-telephone = Telefonicznie
reach-message = SMS-em
reach-email = E-mailem
