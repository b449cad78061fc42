"use strict";
// tslab never awaits `socket.send`. zeromq.js makes 512 sends at once, then puts the next one
// off to the event loop and rejects every further send until that one is through: a cell that
// prints much loses lines and its closing `idle`, and the client waits for ever. With a send
// time-out of 0 every send is tried at once, and without a high-water mark none is refused.
const UNLIMITED = { sendTimeout: 0, sendHighWaterMark: 0 };

/** Makes the sending sockets that tslab creates lose nothing. */
function changeZeromq(zeromq) {
  class Publisher extends zeromq.Publisher {
    constructor(options) {
      super({ ...UNLIMITED, ...options });
    }
  }
  class Router extends zeromq.Router {
    constructor(options) {
      super({ ...UNLIMITED, ...options });
    }
  }
  return new Proxy(zeromq, {
    get: (target, name) => (name === "Publisher" ? Publisher : name === "Router" ? Router : target[name]),
  });
}

module.exports = { changeZeromq };
