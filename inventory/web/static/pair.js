// The code stands in the fragment, which no server log and no other page ever sees.
const code = new URLSearchParams(location.hash.slice(1)).get("t");
if (code) {
  const field = document.querySelector("#token");
  field.value = code;
  field.closest("label").hidden = true;
  history.replaceState(null, "", location.pathname);
  document.querySelector("[name=person]").focus();
}
