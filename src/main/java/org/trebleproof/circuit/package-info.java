/**
 * Elements, netlists, nodal analysis with exact sensitivities, pickup models and guitar wirings; no
 * recordings, no fitting.
 */
package org.trebleproof.circuit;
