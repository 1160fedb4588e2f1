/**
 * @typedef {{id: number, name: string, input: any[]}} Question
 * @typedef {{id: number, answer?: any, fault?: string}} Reply
 */

/**
 * Like starting a worker, which a file opened without a host may be refused: then the page's own thread answers, one
 * question at a time, with a pause for the thumb after each.
 * @param {() => Worker} startWorker  May throw; what it starts may fail before its first answer.
 * @param {(question: Question) => Promise<Reply>} answerHere
 */
export function createSearcher(startWorker, answerHere) {
  let isRefused = false;

  return function startSearchWorker() {
    const events = new EventTarget();
    /** @type {Worker|undefined} */
    let worker;
    /** @type {Question|undefined} */
    let asked;
    let hasAnswered = false;
    let hasEnded = false;

    /** @param {Question} question */
    function askHere(question) {
      setTimeout(async () => {
        if (hasEnded) return;
        const data = await answerHere(question);
        if (!hasEnded) events.dispatchEvent(new MessageEvent("message", { data }));
      });
    }

    function refuse() {
      isRefused = true;
      worker?.terminate();
      worker = undefined;
      if (asked) askHere(asked);
    }

    /** @param {MessageEvent<Reply>} event */
    function take({ data }) {
      if (!hasAnswered && data.fault !== undefined) return refuse();
      hasAnswered = true;
      asked = undefined;
      events.dispatchEvent(new MessageEvent("message", { data }));
    }

    if (!isRefused) {
      try {
        worker = startWorker();
        worker.addEventListener("message", take);
        worker.addEventListener("error", (event) => {
          event.preventDefault();
          if (hasAnswered) events.dispatchEvent(new Event("error", { cancelable: true }));
          else refuse();
        });
      } catch {
        refuse();
      }
    }

    return {
      addEventListener: events.addEventListener.bind(events),
      /** @param {Question} question */
      postMessage(question) {
        asked = question;
        if (worker) worker.postMessage(question);
        else askHere(question);
      },
      terminate() {
        hasEnded = true;
        worker?.terminate();
      },
    };
  };
}
