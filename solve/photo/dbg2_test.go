package photo
import ("testing")
func TestDbg(t *testing.T) {
	p := Photo{Width:4032, Height:3024, Unit:1, Picks: []Pick{{X:1840.8810841042111, Y:1843.105998700837},{X:2480.3596602231505,Y:1004.8980556857116}, {X:2175.0005943883866, Y:2517.8794140657346},{X:1713.9905674100623, Y:287.76905075559404},{X:3340.9536032685523, Y:1370.9266297822878},{X:577.7578653156814, Y:2468.343020529896}},
	Tapes:[]Distance{{From:1, To:2, Is:47.70845569903694, Within:2}, {From:2, To:4, Is:51.787590708442906, Within:2}, {From:4, To:5, Is:108.65411202247886, Within:2}, {From:1, To:3, Is:35.27139620610291, Within:2}}, Away:307.2629125190345}
	n := newNetwork(&p, p.usual())
	parts := n.prior.parts()
	n.settle(&parts[len(parts)/2])
}
