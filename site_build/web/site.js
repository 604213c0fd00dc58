/** What every page gets, as one script. @module */
import './worksheet/page.js';
import './guide/guide.js';
import './notebook/bring.js';
import './offline/offline.js';
