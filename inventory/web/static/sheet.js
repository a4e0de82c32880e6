// On every page: say that scripts run, so that what needs them is shown.
document.documentElement.classList.add("scripted");
