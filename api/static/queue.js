// The recordings that are still on this phone, and receipts of the last ones that were sent.

import * as kept from "./kept.js";
import { send } from "./send.js";
import { showSlips } from "./slips.js";

const part = (name) => document.querySelector(`[data-${name}]`);

async function show() {
  const rows = await kept.all();
  const here = rows.filter((row) => !kept.isSent(row));
  const sent = rows.filter(kept.isSent).reverse();
  showSlips(part("here"), here);
  showSlips(part("receipts"), sent);
  part("nothing").hidden = here.length > 0;
  part("all").hidden = here.length === 0;
  part("sent").hidden = sent.length === 0;
}

part("all").addEventListener("click", () => send({ now: true }));
kept.onChange(() => show().catch((error) => { part("told").textContent = `This phone's storage cannot be read: ${error.message}`; }));
