// Ask this screen again every few seconds, and change only those parts whose words are new.
(function () {
  const again = async function () {
    if (document.hidden) { return; }
    let words;
    try {
      const answer = await fetch(location.href, { cache: 'no-store' });
      if (!answer.ok) { return; }
      words = await answer.text();
    } catch (error) {
      return; // the computer cannot be reached at the moment; the screen stays as it is
    }
    const fresh = new DOMParser().parseFromString(words, 'text/html');
    document.querySelectorAll('[data-again]').forEach(function (part) {
      const made = fresh.getElementById(part.id);
      if (!made || made.innerHTML === part.innerHTML) { return; }
      const at = part.contains(document.activeElement) ? document.activeElement.id : '';
      part.innerHTML = made.innerHTML;
      if (!made.hasAttribute('data-again')) { part.removeAttribute('data-again'); }
      if (at) { (document.getElementById(at) || part).focus(); }
    });
  };
  setInterval(again, 5000);
  document.addEventListener('visibilitychange', again);
})();
