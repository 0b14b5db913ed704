package main
import ("testing"; "fencerow/sim/answer")
func BenchmarkZZ(b *testing.B){
 var q question; q.demo=true; q.draws=65536; q.seed=1
 c:=newCompare()
 asked,err:=q.caseOf(c,nil); if err!=nil {b.Fatal(err)}
 for b.Loop(){ answer.Compare(asked) }
}
