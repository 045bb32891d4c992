// The installer's page used as an installer would, and the service asked for what that page asks for.

/** Opens the page and signs in with the password that the service printed. */
export async function signIn(page, service) {
  await page.goto(service.triage);
  // The service answers 401 to say that nobody is signed in, and Chromium writes that to the console.
  const expected = (problem) => problem.includes("401") && problem.includes("/api/session");
  await page.locator("input[type=password]").fill(service.password);
  await page.locator("input[type=password]").press("Enter");
  await page.locator("h1").filter({ hasText: "Enquiries" }).waitFor();
  await page.locator("a[href^='#']").first().waitFor();
  page.problems = page.problems.filter((problem) => !expected(problem));
}

/** The enquiry with this reference as the service gives it to the signed-in page. */
export async function enquiryOf(page, service, reference) {
  const get = async (path) => {
    const answer = await page.request.get(new URL(path, service.origin).href);
    if (!answer.ok()) throw new Error(`${path}: ${answer.status()}`);
    return answer.json();
  };
  const { enquiries } = await get("/api/installer/enquiries?limit=200");
  const row = enquiries.find((one) => one.reference === reference);
  if (!row) throw new Error(`no enquiry ${reference}`);
  return { row, ...(await get(`/api/installer/enquiries/${row.client_key}`)) };
}

/** The same enquiry, fetched without a page. */
export async function keptOf(service, reference) {
  const headers = { "x-presurvey": "1", "content-type": "application/json" };
  const body = JSON.stringify({ password: service.password });
  const session = await fetch(`${service.origin}/api/session`, { method: "POST", headers, body });
  const cookie = session.headers.getSetCookie().map((line) => line.split(";")[0]).join("; ");
  const get = async (path) => {
    const answer = await fetch(service.origin + path, { headers: { cookie } });
    if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
    return answer.json();
  };
  const { enquiries } = await get("/api/installer/enquiries?limit=200");
  const row = enquiries.find((one) => one.reference === reference);
  if (!row) throw new Error(`no enquiry ${reference}`);
  return { row, ...(await get(`/api/installer/enquiries/${row.client_key}`)) };
}
