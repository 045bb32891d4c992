// For a page of our own, never for a stranger's: asks the browser to keep the page itself, so that it opens without a network.
const begin = () => {
  const config = document.querySelector("presurvey-form")?.getAttribute("config") ?? "";
  // Refused, the page is as it was.
  navigator.serviceWorker?.register(`offline.js?${new URLSearchParams({ config })}`).catch(() => {});
};

// Not while the form is still being fetched: once its first screen is left, or when some time has passed.
addEventListener("presurvey-step", ({ detail }) => detail.step !== "hazard" && begin());
addEventListener("load", () => setTimeout(begin, 20_000));
