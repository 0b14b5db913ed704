// Package insurance lays out area insurance beside PLC and ARC-CO: what each layer covers
// and costs, each program alone and with each layer, how often both pay. It computes no
// figure and decides nothing. Start reading at Of.
package insurance
