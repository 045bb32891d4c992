// Puts the secret that stands in the page's address after # into the page's field.
const secret = decodeURIComponent(location.hash.slice(1));
if (secret) document.querySelector("[name=secret]").value = secret;
