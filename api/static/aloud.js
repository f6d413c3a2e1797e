// Reads an answer aloud, where the browser can; gloved hands have asked, so wet eyes need not read.

const answer = document.querySelector("[data-answer]");
const button = document.querySelector("[data-aloud]");

if (answer && button && "speechSynthesis" in window) {
  button.hidden = false;
  button.addEventListener("click", () => {
    speechSynthesis.cancel();
    speechSynthesis.speak(new SpeechSynthesisUtterance(answer.textContent));
  });
}
