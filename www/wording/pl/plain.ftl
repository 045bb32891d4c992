# The plain form, for where the homeowner's program can't run, in Polish. Voice as in form.ftl.

why = Ta przeglądarka nie może pokazać tu reszty formularza, więc wystarczy kilka słów. Przeczyta je { $installer } i dopyta o to, czego brakuje.
ring = Albo proszę zadzwonić: { $telephone }
title-noscript = Zapytanie do: { $installer }
why-noscript = Bez JavaScriptu ta strona nie może pytać krok po kroku, więc wystarczy kilka słów. Przeczyta je { $installer } i dopyta o to, czego brakuje.
safety = Najpierw: czy zauważyli Państwo coś niebezpiecznego?
safety-text = Jeśli zauważyli Państwo coś z tej listy, proszę przede wszystkim zrobić to, co tu napisano. Proszę nie iść teraz tego sprawdzać.
postcode = Kod pocztowy (postcode)
note = Czego Państwo chcą i co widać
note-hint = Na przykład: gdzie stoi auto, jak daleko mniej więcej jest od niego do tablicy bezpiecznikowej (fuse board), do kogo należy dom. Proszę tylko patrzeć; niczego nie dotykać i nie otwierać.
photos = Zdjęcia
photos-hint = Miejsca postoju, licznika i tablicy bezpiecznikowej, każde z odległości kroku; proszę niczego nie dotykać i nie otwierać. Gdzie i jakim telefonem je zrobiono, zostaje usunięte.
photos-hint-no-look = Tylko miejsca postoju. Proszę nie podchodzić dla zdjęcia do licznika ani do tablicy bezpiecznikowej. Gdzie i jakim telefonem je zrobiono, zostaje usunięte.
refused = Nie przyjęto tego. Wszystko jest tu zapisane. Proszę spróbować ponownie albo zadzwonić: { $telephone }.
sent-text = Państwa zapytanie dotarło. Odezwie się { $installer }.
kept = Przez tyle dni jest to przechowywane, zanim zostanie usunięte: { $days }
trap = Proszę zostawić to pole puste
delete-text = Gdyby Państwo zmienili zdanie: ten odnośnik usuwa to, co wysłano. Proszę go zachować: pojawia się tylko tutaj.
delete-link = Usuń wysłane zapytanie
