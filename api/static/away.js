// Without the machine: which pages were seen on this phone, and can be opened.

const list = document.querySelector("[data-seen-pages]");

async function show() {
  const pages = await (await caches.open("pages")).keys();
  for (const { url } of pages.reverse()) {
    const answer = await (await caches.open("pages")).match(url);
    const title = new DOMParser().parseFromString(await answer.text(), "text/html").title;
    const link = document.createElement("a");
    link.href = url;
    link.textContent = title.replace(/ - Mouldbook$/, "");
    const item = document.createElement("li");
    item.append(link);
    list.append(item);
  }
}

if ("caches" in window) show();
document.querySelector("[data-again]").addEventListener("click", () => location.reload());
