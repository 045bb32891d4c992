// The device's own store: two object stores of one database, each call a transaction of its own.
let opening;

const open = () => opening ??= new Promise((yes, no) => {
  const asked = indexedDB.open("presurvey", 1);
  asked.onupgradeneeded = () => {
    asked.result.createObjectStore("drafts");
    asked.result.createObjectStore("photos");
  };
  asked.onsuccess = () => yes(asked.result);
  asked.onerror = asked.onblocked = () => no(asked.error);
});

export async function stored(store, mode, method, ...said) {
  const database = await open();
  return new Promise((yes, no) => {
    const transaction = database.transaction(store, mode);
    const request = transaction.objectStore(store)[method](...said);
    // Kept is only what the whole transaction kept.
    transaction.oncomplete = () => yes(request.result);
    transaction.onabort = transaction.onerror = () => no(transaction.error);
  });
}
