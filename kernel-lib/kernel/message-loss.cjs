"use strict";
// Two ways in which tslab's use of zeromq.js loses messages.
//
// tslab never awaits `socket.send`. zeromq.js makes 512 sends at once, then puts the next one
// off to the event loop and rejects every further send until that one is through: a cell that
// prints much loses lines and its closing `idle`, and the client waits for ever. With a send
// time-out of 0 every send is tried at once, and without a high-water mark none is refused.
//
// tslab receives from its sockets before it binds them. Binding runs in a thread of its own, and
// until zeromq.js has heard of its end, the socket refuses to send and to receive (EBUSY). A client
// that was quick, or a thread that was slow, has its first message read within that time: the next
// receive is refused, tslab's loop over the socket ends, and the kernel never answers again.
const UNLIMITED = { sendTimeout: 0, sendHighWaterMark: 0 };

let bound = false;
let open;
const opened = new Promise((resolve) => (open = resolve));

/**
 * Lets sockets receive from when `binding` has ended, which binds all of them. Returns `binding`.
 */
function receiveOnceBound(binding) {
  binding.then(
    () => {
      bound = true;
      open();
    },
    (error) => {
      // Without its sockets nobody could ask it to end.
      process.stderr.write(
        `cannot open a socket of the kernel: ${error.message} (${error.address})\n`,
      );
      process.exit(1);
    },
  );
  return binding;
}

/** Makes the sockets that tslab creates lose nothing. */
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
    receive() {
      return bound ? super.receive() : opened.then(() => super.receive());
    }
  }
  class Reply extends zeromq.Reply {
    receive() {
      return bound ? super.receive() : opened.then(() => super.receive());
    }
  }
  const changed = { Publisher, Router, Reply };
  return new Proxy(zeromq, { get: (target, name) => changed[name] ?? target[name] });
}

module.exports = { changeZeromq, receiveOnceBound };
