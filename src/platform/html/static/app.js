// Comfort only: every page works without this file.
for (const element of document.querySelectorAll('[data-focus]')) element.focus();
