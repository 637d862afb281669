/** In place of the workers of a package that asks for them when it is loaded, which a thread of Node does not have. */
export default class NoWorker {
  constructor() {
    throw new Error('found a worker asked for in a test, expected none');
  }
}
