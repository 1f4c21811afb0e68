"use strict";
// What all pages share: the session's token on changes, times in the reader's own zone, and words
// for what a change did or why it failed.
(() => {
  const body = document.body;
  const live = document.getElementById("live");

  window.selvage = {
    token: body.dataset.token,
    locale: body.dataset.locale,
    say(text) {
      live.textContent = "";
      window.setTimeout(() => { live.textContent = text; }, 30);
    },
  };

  document.addEventListener("htmx:configRequest", (event) => {
    event.detail.headers["X-Selvage-Token"] = window.selvage.token;
  });

  const complain = (text) => {
    let box = document.getElementById("complaint");
    if (!box) {
      box = document.createElement("p");
      box.id = "complaint";
      box.className = "complaint";
      box.setAttribute("role", "alert");
      document.getElementById("content").prepend(box);
    }
    box.textContent = text;
    box.hidden = false;
  };
  window.selvage.complain = complain;

  document.addEventListener("htmx:responseError", (event) => {
    const page = new DOMParser().parseFromString(event.detail.xhr.responseText, "text/html");
    const text = page.querySelector("main p");
    complain(text ? text.textContent : "The server could not do that (" + event.detail.xhr.status + ").");
  });
  document.addEventListener("htmx:sendError", () => {
    complain("The server does not answer. Nothing was changed; try again when it is back.");
  });
  document.addEventListener("htmx:afterSwap", () => times(document));

  const format = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });
  const times = (root) => {
    for (const time of root.querySelectorAll("time[datetime]:not([data-own])")) {
      const when = new Date(time.dateTime);
      if (!Number.isNaN(when.getTime())) {
        time.dataset.own = "";
        time.title = time.textContent;
        time.textContent = format.format(when);
      }
    }
  };
  times(document);

  // A file dropped on a form that takes one.
  for (const form of document.querySelectorAll("form[data-drop]")) {
    const input = form.querySelector("input[type=file]");
    form.addEventListener("dragover", (event) => {
      event.preventDefault();
      form.classList.add("over");
    });
    form.addEventListener("dragleave", () => form.classList.remove("over"));
    form.addEventListener("drop", (event) => {
      event.preventDefault();
      form.classList.remove("over");
      if (event.dataTransfer.files.length > 0) {
        input.files = event.dataTransfer.files;
        form.requestSubmit();
      }
    });
  }
  for (const form of document.querySelectorAll("form[data-once]")) {
    form.addEventListener("submit", () => {
      for (const button of form.querySelectorAll("button")) {
        button.disabled = true;
        button.textContent = button.dataset.busy || button.textContent;
      }
    });
  }
})();
