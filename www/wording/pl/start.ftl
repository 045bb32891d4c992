# What the page's own script says before the homeowner's program is there, in Polish. Voice as in form.ftl.

unnamed = instalator
begun-title = Państwa odpowiedzi wciąż tu są
begun-text = Ten formularz był już zaczęty na tym urządzeniu. To, co w nim wpisano, jest zapisane.
begun-go-on = Kontynuuj od tego miejsca
begun-again = Zacznij od nowa
begun-clear = Usuń wszystkie odpowiedzi i zdjęcia
waiting = Chwileczkę. Następny krok się wczytuje.
absent = Nie udało się wczytać następnego kroku: wygląda na to, że nie ma teraz połączenia. To, na co już Państwo odpowiedzieli, zostaje tutaj, a formularz pójdzie dalej sam, gdy połączenie wróci.
absent-try = Spróbuj ponownie
