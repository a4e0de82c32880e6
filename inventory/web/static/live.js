// Shows what others record, without loading the page anew.
const kit = document.body.dataset.kit;

async function renew() {
  try {
    const reply = await fetch(location.href, { headers: { "Kitwright-Renewal": "1" } });
    if (!reply.ok) return;
    const fresh = new DOMParser().parseFromString(await reply.text(), "text/html");
    for (const old of document.querySelectorAll("[data-live]")) {
      const now = fresh.getElementById(old.id);
      if (now && !old.contains(document.activeElement)) old.replaceWith(document.adoptNode(now));
    }
  } catch { /* the next event renews it */ }
}

const spot = document.querySelector("[data-spot]")?.dataset.spot ?? "";
const events = new EventSource(`/api/v1/${kit}/events?${new URLSearchParams({ spot })}`);
let known = null;
events.addEventListener("changed", (event) => {
  if (known !== null && known !== event.data) renew();
  known = event.data;
});
addEventListener("pagehide", () => events.close());
