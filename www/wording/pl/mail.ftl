# The enquiry in plain text, in Polish: what stands in a mail or a message where no service takes it.

summary-title = Zapytanie o punkt ładowania przy domu
summary-hazard = ZAUWAŻONO COŚ NIEBEZPIECZNEGO: to jest najważniejsze.
summary-name = Imię i nazwisko
summary-reach = Najlepszy kontakt
summary-when = Dobra pora
summary-note = Uwaga
summary-language = Wypełniono w języku
summary-offers = Zgoda na oferty
summary-look-again = (Proszę spojrzeć jeszcze raz: cyfry numeru przyłącza do siebie nie pasują.)
summary-photos = Zdjęcia
summary-class = Jak złożona wydaje się praca
summary-price = Cena pokazana właścicielowi
summary-price-none = żadna
summary-not-worked-out = (Na urządzeniu właściciela niczego nie policzono: są tu same odpowiedzi.)
