// Runs before the page is painted: where a half-done form lies on this device, the first screen that stands in the page is
// not shown, for the offer to go on comes first (see page.css).
try {
  if (Object.keys(localStorage).some((name) => name.startsWith("presurvey "))) document.documentElement.dataset.begun = "";
} catch {
  document.documentElement.dataset.begun = ""; // refused: only the form's own database can tell
}
